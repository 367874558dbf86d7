"""Which column of a stock list is what."""
