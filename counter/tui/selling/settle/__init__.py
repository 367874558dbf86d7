"""What became of a sale."""
