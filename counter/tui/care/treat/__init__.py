"""May I treat it: every treatment with its verdict for this piece."""
