"""The house schedule at work: what a piece's margins, faults and gum do to its price.

Factors are multiplied (not added as deductions), except where the schedule names faults together;
the result never falls below the schedule's own floor. The dealer's edits replace the starting values.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from counter.reference.money_records import Factor
from counter.values.item import Item

#: Margin terms of the reference that say the same as a count of clear margins.
_MARGINS = {"four": "4", "three": "3"}


@dataclass(frozen=True, slots=True)
class Step:
    """One factor that was applied: its schedule id, what it is for, the factor, where it is from."""

    id: str
    terms: tuple[str, ...]
    factor: Fraction
    source: str


@dataclass(frozen=True, slots=True)
class Condition:
    """What a piece's condition does to the price of a sound four-margined one.

    `unpriced` lists fault and margin ids that the schedule has no line for: they count as nothing.
    """

    factor: Fraction
    steps: tuple[Step, ...]
    unpriced: tuple[str, ...] = ()


class Schedule:
    """The factors by what they are for; `own` holds the dealer's edits by factor id."""

    def __init__(self, factors: Mapping[str, Factor], own: Mapping[str, Decimal] | None = None):
        edits = own or {}
        self._steps: dict[tuple[str, frozenset[str]], Step] = {}
        for each in factors.values():
            source = "own schedule" if each.id in edits else each.source
            step = Step(each.id, each.terms, Fraction(edits.get(each.id, each.factor)), source)
            self._steps[each.what, frozenset(each.terms)] = step

    def step(self, what: str, term: str) -> Step | None:
        """The line for one term ("multiple", "pair"); None when the schedule has none."""
        return self._steps.get((what, frozenset((term,))))

    def condition(self, item: Item) -> Condition:
        """Margins, faults and gum of an item as one factor with its steps."""
        steps: list[Step] = []
        unpriced: list[str] = []
        self._margins(item, steps, unpriced)
        self._faults({fault.term for fault in item.faults}, steps, unpriced)
        if gum := self.step("gum", item.gum):
            steps.append(gum)
        factor = Fraction(1)
        for step in steps:
            factor *= step.factor
        floor = self.step("floor", "space_filler")
        lowest = min((step.factor for step in steps), default=Fraction(1))
        if floor and factor < min(floor.factor, lowest):
            factor = min(floor.factor, lowest)  # a forgery alone stays below the space filler
            steps.append(floor)
        return Condition(factor, tuple(steps), tuple(unpriced))

    def _margins(self, item: Item, steps: list[Step], unpriced: list[str]) -> None:
        """A multiple is judged as one piece: its worst margin drags the whole."""
        found = []
        for margin in item.margins:
            step = self.step("margin", _MARGINS.get(margin, margin))
            if step:
                found.append(step)
            elif margin:
                unpriced.append(margin)
        if found:
            steps.append(min(found, key=lambda step: step.factor))

    def _faults(self, terms: set[str], steps: list[Step], unpriced: list[str]) -> None:
        """Lines that name several faults together come first; the rest are taken one by one."""
        together = [
            (which, step)
            for (what, which), step in self._steps.items()
            if what == "fault" and len(which) > 1
        ]
        left = set(terms)
        for which, step in sorted(together, key=lambda pair: -len(pair[0])):
            if which <= left:
                steps.append(step)
                left -= which
        for term in sorted(left):
            single = self.step("fault", term)
            if single:
                steps.append(single)
            else:
                unpriced.append(term)
