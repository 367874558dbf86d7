"""One-shot commands for scripts; the app opens when none is given."""
