"""The day."""
