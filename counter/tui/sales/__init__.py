"""The sales, found again."""
