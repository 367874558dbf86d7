"""The stamps of a multiple: a lettering named again opens a clause about that stamp."""

from __future__ import annotations

from counter.judge.reading.piece import Piece


def settle(pieces: list[Piece], folded: str) -> list[Piece]:
    """The pieces with the stamp that each speaks of."""
    return pieces
