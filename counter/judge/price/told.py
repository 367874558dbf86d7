"""What a suggestion says in words: the verdict, why there is none, what it rests on, the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction

from counter.judge.judgement import Judgement, Reason
from counter.judge.price.alike import FEWEST
from counter.judge.price.comparables import Comparable
from counter.judge.price.noise import logarithms, two_levels
from counter.judge.price.schedule import FactorStep, PriceCondition
from counter.judge.price.suggestion import Suggestion
from counter.judge.price.things import Market, Thing, made_up, thing_words
from counter.values.money import half_up, pounds

ASKED = "asked, not sold: the sales decide"
OWN_SALES = "own sales of the same thing"
MIDDLE_FLAGGED = (
    "The middle of these prices is itself far from the rest: there is no one level to suggest."
)
AS_WITHOUT_THE_FAULT = (
    "Such faulty pieces sold no lower than sound ones: the price is that without the fault."
)
_COUNTED = {0: "No sale", 1: "One sale", 2: "Two sales"}


def from_multiples(subject: Thing, others: Sequence[Comparable]) -> str:
    """Said in words, because a strip is not so many singles."""
    steps = {each.basis.id: each.basis for each in others if each.basis}
    said = ", ".join(
        f"{' '.join(step.terms)} at {float(step.factor):g} singles" for step in steps.values()
    )
    source = thing_words(sorted({step.source for step in steps.values()}))
    what = "singles" if subject.item.multiple != "single" else "multiples"
    return f"from {what}, too few of its own size: {said.replace('_', ' of ')} ({source})"


def what_it_is(subject: Thing) -> str:
    """What parts the piece from others, in words: "plate 11, blue cross"."""
    said = list(subject.walls.values())
    if subject.item.plate and "plate" not in subject.walls:
        said.insert(0, f"plate {subject.item.plate}")
    if subject.item.multiple != "single":
        said.insert(0, subject.item.multiple.replace("_", " of "))
    return ", ".join(said)


def why_none(subject: Thing, made: Suggestion, found: Sequence[Comparable]) -> str:
    """Why nothing may be suggested, in a sentence; "" when something may."""
    if not subject.item.issue:
        return "Not identified, so there is nothing to compare it with."
    if subject.doubts:
        return f"It may be {thing_words(subject.doubts)}, another market: settle that before a price."
    sold = [each for each in found if each.evidence.kind == "sold"]
    asked = len(found) - len(sold)
    if len(sold) < FEWEST - 1 or len(sold) + Fraction(asked, 2) < FEWEST:
        return _too_few(subject, made, len(sold), asked)
    if sum(not each.flagged for each in found) < FEWEST:
        return f"Fewer than {FEWEST} of these prices are alike: the rest lie far from them."
    parted = two_levels(logarithms([each.adjusted for each in found if each.adjusted > 0]))
    return _levels(found, parted) if parted is not None else ""


def _too_few(subject: Thing, made: Suggestion, sold: int, asked: int) -> str:
    what = what_it_is(subject)
    of = f" of this as it is ({what})" if what else " of it"
    if asked and not sold:
        return f"Only asking prices{of}: nobody paid one yet, so nothing is suggested."
    said = f"{_COUNTED.get(sold, f'{sold} sales')}{of}: three alike decide, so nothing is suggested."
    if any("carried" in each.differences[0] for each in made.others if each.differences):
        steps = thing_words(_what(step) for step in made.condition.steps if step.factor != 1)
        said += (
            f" Prices that would be carried more than four times to its condition "
            f"({steps or 'sound'}) say nothing."
        )
    elif made.others:
        said += " What is listed below is another thing and does not price it."
    return said


def _levels(found: Sequence[Comparable], middle: Decimal) -> str:
    cut = Fraction(middle.exp())
    parts = (
        [half_up(each.adjusted) for each in found if each.adjusted <= cut],
        [half_up(each.adjusted) for each in found if each.adjusted > cut],
    )
    said = [f"{len(part)} at {pounds(min(part))} to {pounds(max(part))}" for part in parts]
    return f"The prices lie on two levels, {said[0]} and {said[1]}: nobody paid the middle."


def judged(made: Suggestion, subject: Thing, market: Market) -> Judgement:
    """The whole judgement of a suggestion or of a silence."""
    asks = () if subject.item.issue else ("Which issue?",)
    reasons = tuple(_reasons(made)) if made.price is not None else tuple(_stop_reasons(made))
    cautions = tuple(_cautions(made, subject, market))
    return Judgement(verdict(made), reasons, asks, cautions)


def verdict(made: Suggestion) -> str:
    """The figure with its range and what that holds, or why there is none."""
    if made.price is None or made.low is None or made.high is None:
        return made.silence
    said = (
        f"About {pounds(made.price)}, from {made.count} comparables worth {_worth(made)}. "
        f"{pounds(made.low)} to {pounds(made.high)} holds {made.holds} of these {made.of} sales"
    )
    if made.claim is None:
        return f"{said}."
    return f"{said}; a next one today would lie there about four times in five."


def _stop_reasons(made: Suggestion) -> Iterator[Reason]:
    for text, source in made.stops:
        yield Reason("certificate", f"A certificate comes first: {text}.", source, "medium")


def _reasons(made: Suggestion) -> Iterator[Reason]:
    yield from _stop_reasons(made)
    yield Reason(
        "decayed-weighted-median", f"Weighted median, {made.basis}.", "enc-weighted-median", "published"
    )
    if made.claim is not None:
        yield Reason(
            "prediction-interval",
            "Four in five: the prediction interval of a line through the prices by their age.",
            "actuarial-text",
            "published",
        )
    for step in made.condition.steps:
        if step.factor != 1:
            yield Reason(step.id, f"{_what(step)}: times {float(step.factor):.3g}", step.source, "low")


def _what(step: FactorStep) -> str:
    words = " and ".join(step.terms).replace("_", " ").replace(" and in ", " in ")
    return f"{words} margins" if words.isdigit() else words


def unpriced_words(condition: PriceCondition, subject: Thing) -> tuple[str, ...]:
    """Flaws and margins without a factor that the line's own words do not name already."""
    named = " ".join(subject.not_priced)
    words = (each.replace("_", " ") for each in condition.unpriced)
    return tuple(each for each in words if each not in named)


def _worth(made: Suggestion) -> str:
    return f"{float(made.effective):.1f}".removesuffix(".0")


def _cautions(made: Suggestion, subject: Thing, market: Market) -> Iterator[str]:
    for text, _ in made.stops:
        yield f"A certificate comes first: {text}."
    yield from _far_from_asking(made, subject, market)
    if made.not_priced:
        yield f"Not priced: {', '.join(made.not_priced)}."
    if made.price is not None:
        yield from _of_the_figure(made, subject)
    if made_up(subject.item):
        yield "Priced as off its cover: the cover check speaks against belonging."


def _far_from_asking(made: Suggestion, subject: Thing, market: Market) -> Iterator[str]:
    """An asking price ten times away is said before the suggestion is believed."""
    asking, times = subject.item.asking, market.facts.measure("asking-far-away")
    if made.price and asking and not made.price / times < asking < made.price * times:
        yield (
            f"Asked at {pounds(asking)}, more than {times} times away from the {pounds(made.price)} "
            f"suggested: find out why before either is believed."
        )


def _of_the_figure(made: Suggestion, subject: Thing) -> Iterator[str]:
    if made.flagged:
        lie = "price lies" if made.flagged == 1 else "prices lie"
        yield f"{made.flagged} {lie} far from the rest: have a look."
    if made.effective < FEWEST:
        yield f"By age and likeness the comparables are worth only {_worth(made)} equal new ones."
    if made.yearly:
        way = "rose" if made.yearly > 0 else "fell"
        yield (
            f"Prices {way} by about {abs(float(made.yearly)):.0%} a year: each sale is moved to today by it."
        )
    plates = {each.evidence.item.plate for each in made.comparables}
    plate = subject.item.plate
    if plate and plates - {plate}:
        own = sum(each.evidence.item.plate == plate for each in made.comparables)
        yield f"{_COUNTED.get(own, 'Few sales')} of plate {plate} itself: other plates speak too."
    if made.claim is None and made.low is not None:
        yield "How often a next sale would lie in that range is not known from these."
