"""One treatment in full: why, what would change it, the bottle, the hazards."""
