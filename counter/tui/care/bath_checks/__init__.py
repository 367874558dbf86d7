"""Before a bath: everything to tick."""
