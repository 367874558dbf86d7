"""What a piece is worth to this dealer: own comparables, the house schedule, what to offer."""
