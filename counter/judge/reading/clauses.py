"""The clauses of a line, and what stands beside what in them."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.reading.piece import FILLER, PAUSE, Piece

_PARTING = frozenset(",;:()[]|")
_SHORT = 4  # a full stop behind a short word marks it as shortened: "sm. cr."


def clauses(pieces: list[Piece], *, at_with: str = "") -> Iterator[range]:
    """The numbers of the pieces of each clause. Commas, semicolons, colons and brackets part clauses,
    "but" does, and a full stop behind a long word; `at_with`: also the word "with"."""
    start = 0
    for number, piece in enumerate(pieces):
        if _parts(pieces, number) or (at_with and piece.words == "with" and piece.kind == FILLER):
            if number > start:
                yield range(start, number)
            start = number + 1 if piece.kind == PAUSE else number
    if start < len(pieces):
        yield range(start, len(pieces))


def _parts(pieces: list[Piece], number: int) -> bool:
    piece = pieces[number]
    if piece.kind == "choice":
        return piece.value == "but" and number > 0
    if piece.kind != PAUSE:
        return False
    if piece.value == ".":
        before = pieces[number - 1] if number else None
        return before is not None and before.end == piece.start and before.end - before.start > _SHORT
    return piece.value in _PARTING


def solid_before(pieces: list[Piece], number: int, first: int) -> int:
    """The number of the nearest piece before that is no filler, not before `first`; or -1."""
    for at in range(number - 1, first - 1, -1):
        if not pieces[at].silent:
            return at
    return -1


def solid_after(pieces: list[Piece], number: int, end: int) -> int:
    """The number of the nearest piece behind that is no filler, before `end`; or -1."""
    for at in range(number + 1, end):
        if not pieces[at].silent:
            return at
    return -1
