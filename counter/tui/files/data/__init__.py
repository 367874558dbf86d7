"""The data files: what can be done with them."""
