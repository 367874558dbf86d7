"""Comparables: which of the dealer's own sales and asking prices speak for a piece, and how loudly.

Those of the same thing speak; a wall, or a condition carried too far, silences the others, and they
are shown as other things.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from counter.judge.price.likeness import attachment, likeness, plate_share, same_thing
from counter.judge.price.robust import FLAG_BEYOND, age_weight, fences, modified_scores
from counter.judge.price.schedule import FactorStep
from counter.judge.price.things import Market, Thing, apart
from counter.values.days import months_between
from counter.values.item import Item

#: An asking price says less than a price somebody paid ("basis-own-comparables").
_ASKING_COUNTS = Fraction(1, 2)
#: Of more than this the rest is not weighed exactly: it could not come among the likest.
_MOST = 400
#: Nearer to the middle than so many times it is haggling, whatever the scores say (house habit).
_HAGGLING = Fraction(3, 2)


@dataclass(frozen=True, slots=True)
class Evidence:
    """A price in pence of a piece as it was then: what was paid for it, or is asked."""

    number: str
    item: Item
    price: int
    day: str
    kind: Literal["sold", "asking"] = "sold"


@dataclass(frozen=True, slots=True)
class Comparable:
    """An evidence with its price carried over to the subject's condition (pence, exact).

    `years` is its age. `weight` is nought where it does not count; `differences` then says why.
    `basis` is the multiple's step when singles speak for a strip or the reverse.
    """

    evidence: Evidence
    adjusted: Fraction
    likeness: Fraction
    weight: Fraction
    differences: tuple[str, ...]
    years: Fraction = Fraction(0)
    basis: FactorStep | None = None
    flagged: bool = False

    def silenced(self, why: str) -> Comparable:
        """The same, counting for nothing, and why."""
        kept = (each for each in self.differences if each not in why)
        return replace(self, weight=Fraction(0), differences=(why, *kept))


@dataclass(frozen=True, slots=True)
class Sorted:
    """The comparables that are the same thing, likest first, and the others with what parts them."""

    same: tuple[Comparable, ...]
    others: tuple[Comparable, ...]


def comparables(subject: Thing, evidence: Iterable[Evidence], market: Market, today: str) -> Sorted:
    """The evidence of the same size of multiple, sorted."""
    ours = [each for each in evidence if each.item.multiple == subject.item.multiple]
    return _weighed(subject, ours, market, today, None)


def from_other_multiples(
    subject: Thing, evidence: Iterable[Evidence], market: Market, today: str
) -> Sorted:
    """Singles speaking for a strip or block, or those for a single, by the schedule's factor.

    Empty when the schedule has no factor for the size; each comparable carries the step used.
    """
    multiple = subject.item.multiple
    sizes: dict[str, list[Evidence]] = {}
    for each in evidence:
        other = each.item.multiple
        if other != multiple and "single" in (other, multiple):
            sizes.setdefault(multiple if multiple != "single" else other, []).append(each)
    same: list[Comparable] = []
    others: list[Comparable] = []
    for size, ours in sizes.items():
        if step := market.schedule.step("multiple", size):
            found = _weighed(subject, ours, market, today, step)
            same += found.same
            others += found.others
    return Sorted(tuple(sorted(same, key=lambda each: -each.weight)), tuple(others))


def _weighed(
    subject: Thing, evidence: Sequence[Evidence], market: Market, today: str, basis: FactorStep | None
) -> Sorted:
    same: list[Comparable] = []
    others: list[Comparable] = []
    for each in _worth_a_look(subject.item, evidence, today, market.half_life):
        other = market.thing(each.item)
        made = _carried(subject, other, each, market, today, basis)
        parted = apart(subject, other)
        carried = made and _times(subject, other, market)
        most = market.facts.measure("carried-at-most")
        if made is None:
            others.append(_bare(each, today, "worth nothing in its condition"))
        elif parted:
            others.append(made.silenced(", ".join(parted)))
        elif carried and not 1 / most <= carried <= most:
            others.append(made.silenced(_too_far(carried)))
        else:
            same.append(made)
    return Sorted(
        tuple(sorted(same, key=lambda each: -each.weight)),
        tuple(sorted(others, key=lambda each: (each.years, each.evidence.number))),
    )


def _too_far(carried: Fraction) -> str:
    way, times = ("up", carried) if carried > 1 else ("down", 1 / carried)
    return f"its condition would be carried {float(times):.0f} times {way}"


def _times(subject: Thing, other: Thing, market: Market) -> Fraction:
    ours, theirs = (market.schedule.condition(each.wear).factor for each in (subject, other))
    return ours / theirs


def _bare(each: Evidence, today: str, why: str) -> Comparable:
    years = Fraction(round(months_between(each.day, today) * 100), 1200)
    return Comparable(each, Fraction(each.price), Fraction(0), Fraction(0), (why,), years)


def _carried(
    subject: Thing, other: Thing, each: Evidence, market: Market, today: str, basis: FactorStep | None
) -> Comparable | None:
    schedule = market.schedule
    ours, theirs = schedule.condition(subject.wear), schedule.condition(other.wear)
    if not theirs.factor:
        return None  # a piece worth nothing says nothing about a better one
    months = months_between(each.day, today)
    like = likeness(subject, other)
    weight = like.share * age_weight(months, market.half_life)
    if each.kind == "asking":
        weight *= _ASKING_COUNTS
    adjusted = each.price * ours.factor / theirs.factor
    adjusted *= _on(subject, market) / _on(other, market)
    if basis:
        adjusted *= basis.factor if subject.item.multiple != "single" else 1 / basis.factor
        weight /= 2
    years = Fraction(round(months * 100), 1200)
    return Comparable(each, adjusted, like.share, weight, like.differences, years, basis)


def _on(thing: Thing, market: Market) -> Fraction:
    step = market.schedule.step("attachment", attachment(thing.item))
    return step.factor if step and step.factor else Fraction(1)


def _worth_a_look(
    subject: Item, evidence: Sequence[Evidence], today: str, half_life: int
) -> Sequence[Evidence]:
    """The evidence of the same thing; of very many, those that plate and age let weigh the most."""
    same = [
        each
        for each in evidence
        if each.number != subject.number and each.day <= today and same_thing(subject, each.item)
    ]
    if len(same) <= _MOST:
        return same

    def at_most(each: Evidence) -> float:
        share = plate_share(subject, each.item)
        if each.kind == "asking":
            share *= _ASKING_COUNTS
        fading: float = 2.0 ** (-months_between(each.day, today) / half_life)
        return float(share) * fading

    return sorted(same, key=at_most, reverse=True)[:_MOST]


def flag_outliers(found: Sequence[Comparable]) -> list[Comparable]:
    """The same, with those far from the rest flagged for the dealer's eye; none is dropped.

    By modified z-score; where more than half the prices are equal, by the fences.
    """
    values = [each.adjusted for each in found]
    if len(values) < 3:
        return list(found)
    scores = modified_scores(values)
    if scores is not None:
        far = [abs(score) > FLAG_BEYOND for score in scores]
    else:
        low, high = fences(values)
        far = [not low <= value <= high for value in values]
    middle = sorted(values)[len(values) // 2]
    return [
        replace(each, flagged=away and not _haggled(each.adjusted, middle))
        for each, away in zip(found, far, strict=True)
    ]


def _haggled(price: Fraction, middle: Fraction) -> bool:
    return middle / _HAGGLING <= price <= middle * _HAGGLING
