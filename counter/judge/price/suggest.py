"""A price suggested from comparables, with everything it rests on; silent when three are not alike.

Three sales of the same thing decide. Nothing is suggested from fewer, from asking prices alone, from
two levels, where the middle is a price far from the rest, or where a doubt of the line may be a wall.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from counter.judge.price import told
from counter.judge.price.alike import FEWEST, deciding
from counter.judge.price.comparables import (
    Comparable,
    Evidence,
    Sorted,
    comparables,
    flag_outliers,
    from_other_multiples,
)
from counter.judge.price.noise import Drift, drift, logarithms
from counter.judge.price.price_points import easy_price
from counter.judge.price.robust import effective_number, weighted_median
from counter.judge.price.suggestion import Suggestion
from counter.judge.price.things import Market, Thing
from counter.values.money import half_up

MOST = 40  # the likest and newest of many say all that the rest would
#: From so many alike sales on it is said how often a next one would lie in the range.
CLAIM_FROM = 8
#: What the range then claims: of five next sales so many, by Student's t (see noise.drift).
CLAIMED = Fraction(4, 5)
#: A drift of less a year is noise whatever the line says (house habit), in logarithm.
_LEAST_DRIFT = Decimal("0.02")


def suggest(subject: Thing, evidence: Sequence[Evidence], market: Market, today: str) -> Suggestion:
    """The weighted median of the comparables, carried over to the subject's own condition.

    A fault never raises it: where the sales would have it so, the price without that fault stands.
    """
    made = _suggested(subject, evidence, market, today)
    if made.price is None:
        return made
    for flaw in subject.wear.flaws:
        fewer = tuple(each for each in subject.wear.flaws if each != flaw)
        better = suggest(
            replace(subject, wear=replace(subject.wear, flaws=fewer)), evidence, market, today
        )
        if better.price is not None and better.price < made.price:
            made = _at_most(made, better.price)
    return made


def _at_most(made: Suggestion, price: int) -> Suggestion:
    said = told.AS_WITHOUT_THE_FAULT
    low = None if made.low is None else min(made.low, price)
    made = replace(made, price=price, marked=easy_price(price), low=low)
    cautions = (*made.judgement.cautions, said)
    judgement = replace(made.judgement, verdict=told.verdict(made), cautions=cautions)
    return replace(made, judgement=judgement)


def _suggested(subject: Thing, evidence: Sequence[Evidence], market: Market, today: str) -> Suggestion:
    found, basis = _found(subject, evidence, market, today)
    found = _that_speak(found)
    if len(found.same) > MOST:
        basis += f" (the likest {MOST} of many)"
    same = flag_outliers(found.same[:MOST])
    condition = market.schedule.condition(subject.wear)
    blank = Suggestion(
        comparables=tuple(same),
        others=found.others,
        condition=condition,
        basis=basis,
        effective=_worth(same),
        flagged=sum(each.flagged for each in same),
        not_priced=(*subject.not_priced, *told.unpriced_words(condition, subject)),
        stops=subject.stops,
    )
    made = _centred(blank, subject)
    return replace(made, judgement=told.judged(made, subject, market))


def _found(
    subject: Thing, evidence: Sequence[Evidence], market: Market, today: str
) -> tuple[Sorted, str]:
    """The comparables that decide and the others, and what they are, in words."""
    found = deciding(subject, comparables(subject, evidence, market, today))
    basis = told.OWN_SALES
    if subject.stops:  # of what is scarce only its own sales speak, in its own size
        asked = tuple(each for each in found.same if each.evidence.kind != "sold")
        same = tuple(each for each in found.same if each.evidence.kind == "sold")
        return Sorted(same, (*(each.silenced(told.ASKED) for each in asked), *found.others)), basis
    if _enough(found.same) < FEWEST:
        sized = from_other_multiples(subject, evidence, market, today)
        sized = deciding(subject, sized)
        together = (*found.same, *sized.same)
        if sized.same and _enough(together) >= FEWEST:
            basis = told.from_multiples(subject, sized.same)
            found = Sorted(together, (*found.others, *sized.others))
        else:
            found = Sorted(found.same, (*found.others, *sized.others))
    return found, basis


def _enough(found: Sequence[Comparable]) -> Fraction:
    """How many sales they count as: two asking prices beside two sales are one more."""
    sold = sum(each.evidence.kind == "sold" for each in found)
    return Fraction(0) if sold < FEWEST - 1 else sold + Fraction(len(found) - sold, 2)


def _worth(found: Sequence[Comparable]) -> Fraction:
    """The lesser of the effective number and the summed weight: ten old prices are not ten new."""
    weights = [each.weight for each in found]
    return min(effective_number(weights), sum(weights, Fraction(0)))


def _centred(blank: Suggestion, subject: Thing) -> Suggestion:
    """With its price and range, or with the reason in words why there is none."""
    found = blank.comparables
    why = told.why_none(subject, blank, found)
    if why:
        return replace(blank, silence=why)
    line = _line(found)
    moved = [_moved(each, line) for each in found]
    middle = weighted_median(moved, [each.weight for each in found])
    flagged = {value for value, each in zip(moved, found, strict=True) if each.flagged}
    if {middle.lower, middle.upper} & flagged:
        return replace(blank, silence=told.MIDDLE_FLAGGED)
    price = half_up(middle.midpoint)
    made = replace(blank, price=price, marked=easy_price(price))
    if line and line.sure and abs(line.yearly) >= _LEAST_DRIFT:
        made = replace(made, yearly=Fraction(line.yearly.exp() - 1))
    return _ranged(made, found, moved, line, subject)


def _that_speak(found: Sorted) -> Sorted:
    """The sales; asking prices beside them only where the sales alone are too few."""
    sold = tuple(each for each in found.same if each.evidence.kind == "sold")
    if len(sold) < FEWEST:
        return found
    asked = (each.silenced(told.ASKED) for each in found.same if each.evidence.kind != "sold")
    return Sorted(sold, (*asked, *found.others))


def _line(found: Sequence[Comparable]) -> Drift | None:
    """The straight line through those not flagged; None for fewer than three of them."""
    plain = [each for each in found if not each.flagged and each.adjusted > 0]
    if len(plain) < FEWEST:
        return None
    ages = [Decimal(each.years.numerator) / each.years.denominator for each in plain]
    return drift(ages, logarithms([each.adjusted for each in plain]))


def _moved(each: Comparable, line: Drift | None) -> Fraction:
    """A price moved to today by the drift, as far as that is believed."""
    if line is None:
        return each.adjusted
    age = Decimal(each.years.numerator) / each.years.denominator
    return each.adjusted * Fraction((line.yearly * age).exp())


def _ranged(
    made: Suggestion,
    found: Sequence[Comparable],
    moved: Sequence[Fraction],
    line: Drift | None,
    subject: Thing,
) -> Suggestion:
    """The range and what it holds; a claim only from enough sales alike but for their age."""
    assert made.price is not None
    plain = [value for value, each in zip(moved, found, strict=True) if not each.flagged]
    low, high, claim = min(plain), max(plain), None
    if line and len(plain) >= CLAIM_FROM and not made.flagged and all(map(_alike, found)):
        low, high, claim = Fraction(line.low.exp()), Fraction(line.high.exp()), CLAIMED
    least, most = min(half_up(low), made.price), max(half_up(high), made.price)
    holds = sum(least <= half_up(value) <= most for value in moved)
    return replace(made, low=least, high=most, holds=holds, of=len(found), claim=claim)


def _alike(each: Comparable) -> bool:
    return each.likeness == 1 and each.basis is None and each.evidence.kind == "sold"
