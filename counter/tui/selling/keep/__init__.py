"""Keeping the quote in hand."""
