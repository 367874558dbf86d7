"""What a search gives back: the line, how well it fits, and which parts of it were meant."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Hit:
    """One line found. `spans` are character ranges of `line` that matched, to be emphasised.

    `score` is the share of the asked words' weight that the line answers, 0 to 1. `in_number` is
    true when the stock number itself was asked for; `missed` are the asked words that this line
    does not answer, though other lines do.
    """

    number: str
    line: str
    score: float
    spans: tuple[tuple[int, int], ...] = ()
    in_number: bool = False
    missed: tuple[str, ...] = ()
