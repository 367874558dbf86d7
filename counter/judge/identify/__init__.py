"""Identify a stamp from what was seen of it, and say what to look at next."""
