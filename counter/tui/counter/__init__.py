"""The opening screen: ask once; see the stamp, what it tolerates, the stock and the quote."""
