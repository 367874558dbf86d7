"""The quote, as the customer may see it."""
