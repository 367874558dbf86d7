"""Help for where you are, and every action by plain words."""
