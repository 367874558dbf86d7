"""The shape of every kind of row: what it holds, what each field may say, checked on the way in."""
