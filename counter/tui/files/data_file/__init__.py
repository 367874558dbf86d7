"""One piece of work with a data file: its path, the work, what came of it."""
