"""A piece of stock in full: what it is, what it might fetch, what became of it."""
