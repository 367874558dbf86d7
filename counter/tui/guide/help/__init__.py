"""Help for where you are."""
