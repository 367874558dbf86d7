"""The counter: a stall-table tool for a dealer in classic British stamps and covers."""

__version__ = "0.2.0"
