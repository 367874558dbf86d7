"""The pieces of the stock: one, mended, and many brought in."""
