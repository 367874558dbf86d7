"""Selling the quote in hand."""
