"""What a piece might fetch: the figure (or the silence) with all it rests on."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from counter.judge.judgement import Judgement
from counter.judge.price.comparables import Comparable
from counter.judge.price.schedule import PriceCondition


@dataclass(frozen=True, slots=True)
class Suggestion:
    """What a piece might fetch, in pence; `price` is None when nothing may be suggested;
    `silence` says why in a sentence.

    `marked` is the price at an easy figure. `low` to `high` holds `holds` of the `of` sales that decide;
    `claim` is how often a next one would lie there (None: not said). `effective` is how many equal
    new sales the comparables are worth. `others` are shown beside and count for nothing; `not_priced`
    are words that no sum takes; `stops` come before any price. `yearly` is the drift the centre was
    moved by, in parts of the price a year.
    """

    comparables: tuple[Comparable, ...]
    others: tuple[Comparable, ...]
    condition: PriceCondition
    judgement: Judgement = field(default_factory=lambda: Judgement(""))
    silence: str = ""
    basis: str = ""
    price: int | None = None
    marked: int | None = None
    low: int | None = None
    high: int | None = None
    holds: int = 0
    of: int = 0
    claim: Fraction | None = None
    effective: Fraction = Fraction(0)
    flagged: int = 0
    yearly: Fraction = Fraction(0)
    not_priced: tuple[str, ...] = ()
    stops: tuple[tuple[str, str], ...] = ()

    @property
    def count(self) -> int:
        """How many comparables count."""
        return len(self.comparables)

    @property
    def days(self) -> tuple[str, str]:
        """The oldest and the newest day among those that count; "" when there are none."""
        days = sorted(each.evidence.day for each in self.comparables)
        return (days[0], days[-1]) if days else ("", "")
