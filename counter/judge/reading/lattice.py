"""The cheapest way through a line, and what was nearly as cheap.

Every word may be several things, each with a cost; words of the trade and plain English keep company
with their like, so changing from one to the other costs too. Nothing here knows what the words mean.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from counter.judge.reading.candidates import Way, ways_at
from counter.judge.reading.line import Line
from counter.judge.reading.piece import Piece


@dataclass(frozen=True, slots=True)
class Path:
    """The pieces of the cheapest way, in order, and the nearest other ways of single spans: each as
    the pieces it would make and how much dearer it is."""

    pieces: list[Piece]
    others: list[tuple[list[Piece], float]]


def cheapest(line: Line) -> Path:
    """The cheapest way through the line."""
    size = len(line.tokens)
    least = [[inf, inf] for _ in range(size + 1)]
    least[0] = [0.0, inf]
    came: list[list[tuple[int, int, Way] | None]] = [[None, None] for _ in range(size + 1)]
    every: list[list[Way]] = []
    costs = line.vocabulary.grammar.costs
    away = (costs["to plain English", ""], costs["to plain English", "after a pause"])
    back = (costs["to the trade", ""], costs["to the trade", "after a pause"])
    for at in range(size):
        trade, plain = least[at]
        ways = ways_at(line, at) if min(trade, plain) < inf else []
        every.append(ways)
        pause = at > 0 and line.is_pause(at - 1)
        from_plain, from_trade = plain + back[pause], trade + away[pause]
        to_trade, mood_trade = (trade, 0) if trade <= from_plain else (from_plain, 1)
        to_plain, mood_plain = (plain, 1) if plain <= from_trade else (from_trade, 0)
        for way in ways:
            end = way.end
            if to_trade + way.trade < least[end][0]:
                least[end][0] = to_trade + way.trade
                came[end][0] = (at, mood_trade, way)
            if to_plain + way.plain < least[end][1]:
                least[end][1] = to_plain + way.plain
                came[end][1] = (at, mood_plain, way)
    return _back(line, every, came, 0 if least[size][0] <= least[size][1] else 1)


def _back(
    line: Line, every: list[list[Way]], came: list[list[tuple[int, int, Way] | None]], mood: int
) -> Path:
    """Follow the cheapest way back to the beginning of the line."""
    pieces: list[list[Piece]] = []
    others: list[tuple[list[Piece], float]] = []
    end = len(line.tokens)
    near = line.vocabulary.grammar.near
    while end and (step := came[end][mood]):
        at, before, way = step
        pieces.append(way.pieces)
        if mood == 0:
            others += _others(every[at], way, near)
        end, mood = at, before
    others.sort(key=lambda each: each[1])
    return Path([piece for run in reversed(pieces) for piece in run], others)


def _others(ways: list[Way], chosen: Way, near: float) -> list[tuple[list[Piece], float]]:
    """The other readings of the very same words that are nearly as cheap."""
    told = {(piece.kind, piece.value) for piece in chosen.pieces}
    found = []
    for way in ways:
        if way is chosen or way.end != chosen.end or way.trade - chosen.trade > near:
            continue
        if {(piece.kind, piece.value) for piece in way.pieces} != told and way.pieces[0].seen:
            found.append((way.pieces, way.trade - chosen.trade))
    return found
