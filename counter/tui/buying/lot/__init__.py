"""Sharing the price of a lot."""
