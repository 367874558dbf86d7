"""From the quote to the sale and what becomes of it."""
