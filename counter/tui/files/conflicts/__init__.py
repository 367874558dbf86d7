"""What two laptops both changed: which version holds."""
