"""Comparables: which of the dealer's own sales and asking prices speak for a piece, and how loudly."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from counter.judge.price.likeness import attachment, likeness, plate_share, same_thing
from counter.judge.price.robust import FLAG_BEYOND, age_weight, fences, modified_scores
from counter.judge.price.schedule import Schedule, Step
from counter.values.days import months_between
from counter.values.item import Item

#: An asking price says less than a price somebody paid ("basis-own-comparables").
_ASKING_COUNTS = Fraction(1, 2)
#: Of more than this the rest is not weighed exactly: it could not come among the likest.
_MOST = 400


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
    """An evidence with its price carried over to the subject's condition (pence, exact)."""

    evidence: Evidence
    adjusted: Fraction
    likeness: Fraction
    weight: Fraction
    differences: tuple[str, ...]
    basis: Step | None = None  # the multiple's step when singles speak for a strip or the reverse
    flagged: bool = False


def comparables(
    subject: Item, evidence: Iterable[Evidence], schedule: Schedule, today: str, half_life: int
) -> list[Comparable]:
    """The evidence of the same thing in the same size of multiple, likest first."""
    ours = [each for each in evidence if each.item.multiple == subject.multiple]
    return _weighed(subject, ours, schedule, today, half_life, None)


def from_other_multiples(
    subject: Item, evidence: Iterable[Evidence], schedule: Schedule, today: str, half_life: int
) -> list[Comparable]:
    """Singles speaking for a strip or block, or those for a single, by the schedule's factor.

    Empty when the schedule has no factor for the size; each comparable carries the step used.
    """
    sized = subject.multiple if subject.multiple != "single" else None
    found: list[Comparable] = []
    for each in evidence:
        other = each.item.multiple
        if other == subject.multiple or "single" not in (other, subject.multiple):
            continue
        step = schedule.step("multiple", sized or other)
        if step:
            found += _weighed(subject, [each], schedule, today, half_life, step)
    return sorted(found, key=lambda each: -each.weight)


def _weighed(
    subject: Item,
    evidence: Sequence[Evidence],
    schedule: Schedule,
    today: str,
    half_life: int,
    basis: Step | None,
) -> list[Comparable]:
    ours = schedule.condition(subject)
    found = []
    for each in _worth_a_look(subject, evidence, today, half_life):
        theirs = schedule.condition(each.item)
        if not theirs.factor:
            continue  # a piece worth nothing says nothing about a better one
        like = likeness(subject, each.item, (ours, theirs))
        weight = like.share * age_weight(months_between(each.day, today), half_life)
        if each.kind == "asking":
            weight *= _ASKING_COUNTS
        adjusted = each.price * ours.factor / theirs.factor
        adjusted *= _piece(subject, schedule) / _piece(each.item, schedule)
        if basis:
            adjusted *= basis.factor if subject.multiple != "single" else 1 / basis.factor
            weight /= 2
        found.append(Comparable(each, adjusted, like.share, weight, like.differences, basis))
    return sorted(found, key=lambda each: -each.weight)


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


def _piece(item: Item, schedule: Schedule) -> Fraction:
    step = schedule.step("attachment", attachment(item))
    return step.factor if step and step.factor else Fraction(1)


def flag_outliers(found: Sequence[Comparable]) -> list[Comparable]:
    """The same, with those far from the rest flagged for the dealer's eye; none is dropped.

    By modified z-score; where more than half the prices are equal, by the fences.
    """
    values = [each.adjusted for each in found]
    if len(values) < 3:
        return list(found)
    scores = modified_scores(values)
    if scores is not None:
        return [
            replace(each, flagged=abs(score) > FLAG_BEYOND)
            for each, score in zip(found, scores, strict=True)
        ]
    low, high = fences(values)
    return [replace(each, flagged=not low <= each.adjusted <= high) for each in found]
