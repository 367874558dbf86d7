"""Look closer at the stamp in hand: what to look at next, why, letters, gauge, finds."""
