"""A price suggested from comparables, with everything it rests on; silent when they are too few."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from counter.judge.judgement import Judgement, Reason
from counter.judge.price.comparables import (
    Comparable,
    Evidence,
    comparables,
    flag_outliers,
    from_other_multiples,
)
from counter.judge.price.likeness import made_up
from counter.judge.price.price_points import easy_price
from counter.judge.price.robust import effective_number, median_interval, slope, weighted_median
from counter.judge.price.schedule import Condition, Schedule, Step
from counter.values.days import months_between
from counter.values.item import Item
from counter.values.money import half_up, pounds

FEWEST = 3  # fewer comparables are listed, and nothing is suggested (method "report-rule")
HALF_LIFE = 36  # months: 24 to 60 is usual for slow material ("half-life-weights")
MOST = 40  # the likest and newest of many say all that the rest would
_FEWEST_FOR_DRIFT = 6  # "median-of-slopes"


@dataclass(frozen=True, slots=True)
class Suggestion:
    """What a piece might fetch, in pence; `price` is None when the comparables are too few.

    `marked` is the price at an easy figure; `low` to `high` cover the middle price with `cover`;
    `effective` is how many equal comparables the weighted ones are worth.
    """

    price: int | None
    marked: int | None
    low: int | None
    high: int | None
    cover: Fraction
    count: int
    effective: Fraction
    flagged: int
    newest: str
    oldest: str
    basis: str
    comparables: tuple[Comparable, ...]
    condition: Condition
    judgement: Judgement


def suggest(
    subject: Item,
    evidence: Sequence[Evidence],
    schedule: Schedule,
    today: str,
    half_life: int = HALF_LIFE,
) -> Suggestion:
    """The weighted median of the comparables, carried over to the subject's own condition."""
    found = comparables(subject, evidence, schedule, today, half_life)
    basis = "own sales and asking prices of the same thing"
    if len(found) < FEWEST:
        others = from_other_multiples(subject, evidence, schedule, today, half_life)
        if len(others) + len(found) >= FEWEST:
            found += others
            basis = _basis(subject, others)
    if made_up(subject):
        basis += ", as off its cover: the cover check speaks against belonging"
    if len(found) > MOST:
        basis += f" (the likest {MOST} of many)"
    found = flag_outliers(found[:MOST])
    days = sorted(each.evidence.day for each in found)
    blank = Suggestion(
        price=None,
        marked=None,
        low=None,
        high=None,
        cover=Fraction(0),
        count=len(found),
        effective=effective_number([each.weight for each in found]),
        flagged=sum(each.flagged for each in found),
        newest=days[-1] if days else "",
        oldest=days[0] if days else "",
        basis=basis,
        comparables=tuple(found),
        condition=schedule.condition(subject),
        judgement=_too_few(subject, len(found)),
    )
    weights = [each.weight for each in found]
    if len(found) < FEWEST or not any(weights):
        return blank
    return _centred(blank, [each.adjusted for each in found], weights, today)


def _centred(
    blank: Suggestion, values: list[Fraction], weights: list[Fraction], today: str
) -> Suggestion:
    price = half_up(weighted_median(values, weights).midpoint)
    low, high, cover = median_interval(values)
    full = replace(
        blank,
        price=price,
        marked=easy_price(price),
        low=min(half_up(low), price),  # by weight the middle may lie beyond the bare interval
        high=max(half_up(high), price),
        cover=cover,
    )
    return replace(full, judgement=_judged(full, today))


def _basis(subject: Item, others: list[Comparable]) -> str:
    """Said in words, because a strip is not so many singles."""
    steps = {each.basis.id: each.basis for each in others if each.basis}
    said = ", ".join(
        f"{' '.join(step.terms)} at {float(step.factor):g} singles" for step in steps.values()
    )
    what = "singles" if subject.multiple != "single" else "multiples"
    return f"from {what}, too few of its own size: {said.replace('_', ' of ')} (house schedule)"


def _too_few(subject: Item, count: int) -> Judgement:
    if not subject.issue:
        return Judgement(
            "Not identified, so there is nothing to compare it with.", asks=("Which issue?",)
        )
    listed = {0: "No comparable", 1: "One comparable", 2: "Two comparables"}.get(
        count, f"{count} comparables"
    )
    return Judgement(f"{listed}: too few to suggest a price; at least {FEWEST} are needed.")


def _judged(made: Suggestion, today: str) -> Judgement:
    assert made.price is not None and made.low is not None and made.high is not None
    verdict = (
        f"About {pounds(made.price)}, {pounds(made.low)} to {pounds(made.high)}, from {made.count} "
        f"comparables worth {_worth(made)}."
    )
    reasons = [
        Reason(
            "decayed-weighted-median",
            f"Weighted median, {made.basis}.",
            "enc-weighted-median",
            "published",
        ),
        Reason(
            "median-interval",
            f"The range covers the middle price with probability {float(made.cover):.0%}.",
            "nonparam-text",
            "published",
        ),
    ]
    reasons += [
        Reason(step.id, f"{_what(step)}: times {float(step.factor):g}", step.source, "low")
        for step in made.condition.steps
        if step.factor != 1
    ]
    return Judgement(verdict, tuple(reasons), cautions=tuple(_cautions(made, today)))


def _what(step: Step) -> str:
    words = " and ".join(step.terms).replace("_", " ")
    return f"{words} margins" if words.isdigit() else words


def _worth(made: Suggestion) -> str:
    return f"{float(made.effective):.1f}".removesuffix(".0")


def _cautions(made: Suggestion, today: str) -> list[str]:
    said = []
    if made.flagged:
        lie = "price lies" if made.flagged == 1 else "prices lie"
        said.append(f"{made.flagged} {lie} far from the rest: have a look.")
    if made.effective < FEWEST:
        said.append(f"The comparables are worth only {_worth(made)} equal ones.")
    if made.cover < Fraction(19, 20):
        said.append("Fewer than six comparables cannot give a 95 % range.")
    if all(each.evidence.kind == "asking" for each in made.comparables):
        said.append("Only asking prices: nothing like it was sold yet.")
    if made.condition.unpriced:
        named = ", ".join(made.condition.unpriced).replace("_", " ")
        said.append(f"The house schedule has no factor for {named}: not taken off.")
    return [*said, *_drift(made, today)]


def _drift(made: Suggestion, today: str) -> list[str]:
    """Whether prices have moved over the years, by the median of the slopes between dated sales."""
    sold = [each for each in made.comparables if each.evidence.kind == "sold"]
    if len(sold) < _FEWEST_FOR_DRIFT or len({each.evidence.day for each in sold}) < 2:
        return []
    ages = [Fraction(round(-months_between(each.evidence.day, today) * 100), 100) for each in sold]
    yearly = half_up(12 * slope(ages, [each.adjusted for each in sold]))
    if not made.price or abs(yearly) * 20 < made.price:  # under 5 % a year is noise in a handful
        return []
    return [f"The prices {'rose' if yearly > 0 else 'fell'} by about {pounds(abs(yearly))} a year."]
