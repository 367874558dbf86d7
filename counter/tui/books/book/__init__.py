"""The stock book of a period."""
