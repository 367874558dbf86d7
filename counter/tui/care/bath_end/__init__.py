"""The end of a bath: how it looks now, or why it was abandoned."""
