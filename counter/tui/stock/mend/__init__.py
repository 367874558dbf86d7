"""Mending a piece: a form of few keys."""
