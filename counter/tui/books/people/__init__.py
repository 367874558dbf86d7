"""The people."""
