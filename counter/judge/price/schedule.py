"""The house schedule at work: what a piece's margins, faults and gum do to its price.

Factors are multiplied (not added as deductions), except where the schedule names faults together;
the result never falls below the schedule's own floor. A fault of one stamp of a multiple counts for
that stamp's share of the whole. The dealer's edits replace the starting values.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from counter.reference.money_records import Factor

#: Margin terms of the reference that say the same as a count of clear margins.
_MARGINS = {"four": "4", "three": "3"}


@dataclass(frozen=True, slots=True)
class Flaw:
    """A fault by its kind ("fault", "repair" or "condition") and term; `stamp` is the letters of the
    one stamp of a multiple that has it ("": the whole piece, or not said)."""

    what: str
    term: str
    stamp: str = ""


@dataclass(frozen=True, slots=True)
class Wear:
    """How a piece is, as far as price goes: its margins, flaws and gum, and of how many stamps."""

    margins: tuple[str, ...] = ()
    flaws: tuple[Flaw, ...] = ()
    gum: str = ""
    stamps: int = 1


@dataclass(frozen=True, slots=True)
class FactorStep:
    """One factor that was applied: its schedule id, what it is for, the factor, where it is from."""

    id: str
    terms: tuple[str, ...]
    factor: Fraction
    source: str


@dataclass(frozen=True, slots=True)
class PriceCondition:
    """What a piece's condition does to the price of a sound four-margined one.

    `unpriced` lists flaws and margins that the schedule has no line for: they count as nothing.
    """

    factor: Fraction
    steps: tuple[FactorStep, ...]
    unpriced: tuple[str, ...] = ()


class Schedule:
    """The factors by what they are for; `own` holds the dealer's edits by factor id."""

    def __init__(self, factors: Mapping[str, Factor], own: Mapping[str, Decimal] | None = None):
        edits = own or {}
        self._steps: dict[tuple[str, frozenset[str]], FactorStep] = {}
        for each in factors.values():
            source = "own schedule" if each.id in edits else each.source
            step = FactorStep(each.id, each.terms, Fraction(edits.get(each.id, each.factor)), source)
            self._steps[each.what, frozenset(each.terms)] = step

    def step(self, what: str, term: str) -> FactorStep | None:
        """The line for one term ("multiple", "pair"); None when the schedule has none."""
        return self._steps.get((what, frozenset((term,))))

    def condition(self, wear: Wear) -> PriceCondition:
        """Margins, flaws and gum as one factor with its steps."""
        steps: list[FactorStep] = []
        unpriced: list[str] = []
        self._margins(wear.margins, steps, unpriced)
        self._of_the_whole([each for each in wear.flaws if not each.stamp], steps, unpriced)
        self._of_one_stamp(wear, steps, unpriced)
        if gum := self.step("gum", wear.gum):
            steps.append(gum)
        factor = Fraction(1)
        for step in steps:
            factor *= step.factor
        floor = self.step("floor", "space_filler")
        lowest = min((step.factor for step in steps), default=Fraction(1))
        if floor and factor < min(floor.factor, lowest):
            factor = min(floor.factor, lowest)  # a forgery alone stays below the space filler
            steps.append(floor)
        return PriceCondition(factor, tuple(steps), tuple(dict.fromkeys(unpriced)))

    def _margins(self, margins: Iterable[str], steps: list[FactorStep], unpriced: list[str]) -> None:
        """A multiple is judged as one piece: its worst margin drags the whole."""
        found = []
        for margin in margins:
            step = self.step("margin", _MARGINS.get(margin, margin))
            if step:
                found.append(step)
            elif margin:
                unpriced.append(margin)
        if found:
            steps.append(min(found, key=lambda step: step.factor))

    def _of_one_stamp(self, wear: Wear, steps: list[FactorStep], unpriced: list[str]) -> None:
        """The stamps that have flaws of their own lower the whole by their share of it."""
        letters = sorted({each.stamp for each in wear.flaws if each.stamp})
        for stamp in letters:
            own: list[FactorStep] = []
            self._of_the_whole([each for each in wear.flaws if each.stamp == stamp], own, unpriced)
            left = Fraction(1)
            for step in own:
                left *= step.factor
            if own:
                terms = (*(term for step in own for term in step.terms), f"in {stamp}")
                source = own[0].source if len({step.source for step in own}) == 1 else "own schedule"
                whole = 1 - (1 - left) / max(wear.stamps, len(letters))
                steps.append(FactorStep(own[0].id, terms, whole, source))

    def _of_the_whole(
        self, flaws: Iterable[Flaw], steps: list[FactorStep], unpriced: list[str]
    ) -> None:
        """Lines that name several faults together come first; the rest are taken one by one."""
        left = {(each.what, each.term) for each in flaws}
        together = [
            (what, which, step) for (what, which), step in self._steps.items() if len(which) > 1
        ]
        for what, which, step in sorted(together, key=lambda each: -len(each[1])):
            if {(what, term) for term in which} <= left:
                steps.append(step)
                left -= {(what, term) for term in which}
        for what, term in sorted(left):
            if single := self.step(what, term):
                steps.append(single)
            else:
                unpriced.append(term)
