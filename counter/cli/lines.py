"""Long sentences as lines of a terminal."""

from __future__ import annotations

from textwrap import fill

_WIDTH = 80


def wrapped(text: str) -> str:
    """A sentence set in by two columns and broken at its spaces."""
    return fill(text, _WIDTH, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)
