"""Tables of other programs: CSV files read into the stock and written from the books."""
