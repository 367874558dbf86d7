"""The day, the till, the stock book and its papers, the people, the house."""
