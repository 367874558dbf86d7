"""The cash box."""
