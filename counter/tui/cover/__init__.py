"""Does it belong? The cover check: finding, dates, reasons, questions, rate."""
