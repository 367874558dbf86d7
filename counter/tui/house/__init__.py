"""The house's settings."""
