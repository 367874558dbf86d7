"""One person."""
