"""How strong is it: a label in every measure, its hazard band, and what to add to weaken it."""
