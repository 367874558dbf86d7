"""A stock list from elsewhere, looked over and brought in."""
