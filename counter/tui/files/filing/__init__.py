"""Where a file is to be written."""
