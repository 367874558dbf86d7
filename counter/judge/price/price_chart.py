"""Comparables along a price axis, with the suggestion and the asking price, as rows of text.

A pure model: places in columns, no colours and no markup; each state has its own sign and word.
"""

from __future__ import annotations

from dataclasses import dataclass

from counter.judge.price.suggestion import Suggestion
from counter.values.money import half_up, marked

_LABEL = 10  # columns for the word before each row
SOLD, ASKED, FLAGGED, MANY = "o", "x", "!", "8"


@dataclass(frozen=True, slots=True)
class Point:
    """One price on the axis, in pence; `weight` is its share of the heaviest, 0 to 1."""

    price: int
    kind: str
    flagged: bool
    weight: float


@dataclass(frozen=True, slots=True)
class Picture:
    """What is drawn: the points, the suggested price and its range, and what is asked."""

    points: tuple[Point, ...]
    price: int | None
    low: int | None
    high: int | None
    asking: int | None

    @property
    def span(self) -> tuple[int, int]:
        """The axis from just below the lowest to just above the highest price, in pence."""
        known = [point.price for point in self.points]
        known += [each for each in (self.price, self.low, self.high, self.asking) if each is not None]
        if not known:
            return 0, 100
        edge = max((max(known) - min(known)) // 20, 50)
        return max(min(known) - edge, 0), max(known) + edge

    def column(self, price: int, width: int) -> int:
        """Where a price stands on an axis of so many columns."""
        low, high = self.span
        return min(max((price - low) * (width - 1) // max(high - low, 1), 0), width - 1)

    def rows(self, width: int) -> list[str]:
        """The picture in rows of exactly `width` columns (30 at least); empty when nothing is known."""
        if not self.points and self.price is None:
            return []
        across = max(width, 30) - _LABEL
        rows = [
            self._points_row("sold", [p for p in self.points if p.kind == "sold"], SOLD, across),
            self._points_row("asked", [p for p in self.points if p.kind != "sold"], ASKED, across),
            self._range_row(across),
            self._mark_row("suggest", self.price, across),
            self._mark_row("asking", self.asking, across),
            self._axis(across),
        ]
        return [row for row in rows if row[_LABEL:].strip()]

    def _points_row(self, word: str, points: list[Point], sign: str, across: int) -> str:
        cells = [" "] * across
        for point in sorted(points, key=lambda each: each.flagged):
            place = self.column(point.price, across)
            taken = cells[place] != " "
            cells[place] = FLAGGED if point.flagged else MANY if taken else sign
        return f"{word:<{_LABEL}}" + "".join(cells)

    def _range_row(self, across: int) -> str:
        if self.low is None or self.high is None:
            return " " * (_LABEL + across)
        first, last = self.column(self.low, across), self.column(self.high, across)
        line = " " * first + "[" + "-" * max(last - first - 1, 0) + ("]" if last > first else "")
        return f"{'range':<{_LABEL}}{line:<{across}}"

    def _mark_row(self, word: str, price: int | None, across: int) -> str:
        if price is None:
            return " " * (_LABEL + across)
        place, said = self.column(price, across), marked(price)
        line = f"{'':<{place}}^ {said}"
        if len(line) > across:
            line = f"{said:>{place - 1}} ^"
        return f"{word:<{_LABEL}}{line:<{across}}"[: _LABEL + across]

    def _axis(self, across: int) -> str:
        low, high = (marked(each) for each in self.span)
        line = f"{low} {'-' * max(across - len(low) - len(high) - 2, 1)} {high}"
        return f"{'price':<{_LABEL}}{line:<{across}}"[: _LABEL + across]


def picture(made: Suggestion, asking: int | None) -> Picture:
    """The picture of a suggestion and of what is asked for the piece now."""
    heaviest = max((each.weight for each in made.comparables), default=None)
    points = tuple(
        Point(
            half_up(each.adjusted),
            each.evidence.kind,
            each.flagged,
            float(each.weight / heaviest) if heaviest else 0.0,
        )
        for each in made.comparables
    )
    return Picture(points, made.price, made.low, made.high, asking)


#: What the signs mean, for the line under the picture.
LEGEND = f"{SOLD} sold   {ASKED} asked   {MANY} several   {FLAGGED} far from the rest   [--] range"
