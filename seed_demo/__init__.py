"""The invented dealer whose stock the demo shows."""
