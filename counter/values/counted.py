"""How many of a thing, in words."""

from __future__ import annotations


def how_many(number: int, what: str) -> str:
    """So many: "1 sale", "2 sales", "1,108 pieces"."""
    return f"{number:,} {what}{'' if number == 1 else 's'}"
