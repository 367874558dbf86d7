"""Files of data written, read, merged, put right."""
