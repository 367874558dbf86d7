"""Every action, found by plain words."""
