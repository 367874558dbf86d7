"""Does it belong? Rates, cancels, checks and the chart of a cover's dates."""
