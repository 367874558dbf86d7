"""What the dealer owns and did: journal, tables, search, imports and exports. Never judges."""
