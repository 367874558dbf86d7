"""The quotes that were kept."""
