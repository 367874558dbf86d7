"""Could this cancel be of that day, that ink and that place?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from counter.judge.cover.result import STRENGTHS, weaker
from counter.judge.judgement import Speaks, Strength
from counter.reference.postal import Postal
from counter.reference.postal_marks import Cancel
from counter.values.dates import When, read_date

Standing = Literal["in period", "early", "late", "exceptional", "out of period", "not known"]

_BROWN = "maltese_cross_brown"
_BY_SHAPE = "mx_distinctive"  # told by the shape of one town's cross, never by its ink


@dataclass(frozen=True, slots=True)
class CancelSeen:
    """A cancel: its family ("maltese_cross"), or closer its type ("num_scotland_1844").

    `to_region` is "elsewhere" where a place is named that the reference does not know.
    """

    family: str
    type: str = ""
    colour: str = ""
    number: str = ""
    town: str = ""
    region: str = ""
    to_region: str = ""


@dataclass(frozen=True, slots=True)
class CancelAnswer:
    """How a cancel stands to one question, with the record it rests on."""

    standing: Standing
    speaks: Speaks
    strength: Strength
    text: str
    source: str
    confidence: str
    record: str = ""


def in_use(postal: Postal, seen: CancelSeen, when: When) -> CancelAnswer:
    """Was this kind in use that day, whatever its ink?"""
    kinds = kinds_of(postal, seen)
    if not kinds:
        return _unknown(f"The reference has no dates for a {seen.family.replace('_', ' ')}.")
    answer = _best(kinds, seen, when)
    if answer.standing != "in period" or len(kinds) == 1:
        return answer
    first = read_date(min(kind.first for kind in kinds)).words()
    last = read_date(max(kind.last for kind in kinds)).words()
    name = seen.family.replace("_", " ").capitalize()
    text = f"{name}: in use from {first} to {last}; {when.words()} is within it."
    return replace(answer, text=text)


def ink_right(postal: Postal, seen: CancelSeen, when: When | None) -> CancelAnswer:
    """Is the colour right for the kind, and for the day where it is known?"""
    named = postal.cancels.get(seen.type)
    family = [named] if named else [each for each in _family(postal, seen) if each.id != _BY_SHAPE]
    kinds = [each for each in family if seen.colour in each.colours]
    if not kinds:
        return _colour_unknown(postal, seen)
    if seen.family != "maltese_cross" or when is None:
        kind = next((each for each in kinds if each.always == "none"), kinds[0])
        return _in_ink(kind, seen)
    return _best(kinds, seen, when)


def place_right(postal: Postal, seen: CancelSeen) -> CancelAnswer:
    """Could it come from that place?"""
    kinds = kinds_of(postal, seen, by_place=False)
    if seen.number and seen.family == "maltese_cross":
        kinds = [postal.cancels["mx_numbered"]]
    known = [each for each in kinds if "any" not in each.regions]
    if not seen.region or not known or len(known) < len(kinds):
        return _unknown("This kind was used everywhere." if kinds and not known else "")
    fitting = [each for each in known if _in_region(each, seen)]
    if fitting and len(known) > 1:
        return _unknown(
            "The shape would tell: oval (England), box of bars (Scotland), diamond (Ireland)."
        )
    if fitting:
        text = f"{fitting[0].kind}: used in {fitting[0].region}, as here."
        return _answer("in period", "for", "weak", text, fitting[0])
    kind = known[0]
    strength: Strength = "moderate" if kind.source == "memory" or kind.id == "mx_numbered" else "strong"
    where = seen.town or seen.region.replace("_", " ")
    text = f"{kind.kind} belongs to {kind.region}; this letter was posted at {where}."
    return _answer("out of period", "against", strength, text, kind)


def brown_cross(postal: Postal, seen: CancelSeen) -> str:
    """The caution for a brown or black-brown cross: its causes, the test, what to do; else ""."""
    if seen.family != "maltese_cross" or seen.colour != "brown":
        return ""
    known = postal.ink_changes[_BROWN]
    lead = postal.ink_changes["sulphiding_red_lead"]
    return (
        f"A brown cross: {known.cause}. A sulphided red looks {lead.look}. "
        f"To settle it: {known.test}. {known.consequence[:1].upper()}{known.consequence[1:]}."
    )


def _family(postal: Postal, seen: CancelSeen) -> list[Cancel]:
    return [each for each in postal.cancels.values() if seen.family in (each.family, each.id)]


def kinds_of(postal: Postal, seen: CancelSeen, *, by_place: bool = True) -> list[Cancel]:
    """The records a cancel may be: the named type, else the family's ordinary kinds, of that place."""
    named = postal.cancels.get(seen.type)
    if seen.family == "maltese_cross" and seen.number:
        named = postal.cancels["mx_numbered"]
    if named and named.other_numbers_first and seen.number not in ("", named.first_number):
        return [replace(named, first=named.other_numbers_first)]
    if named:
        return [named]
    ordinary = [
        each
        for each in _family(postal, seen)
        if (not each.exceptional or each.id == seen.family) and each.id != "mx_numbered"
    ]
    if not by_place or not seen.region:
        return ordinary
    return [each for each in ordinary if "any" in each.regions or _in_region(each, seen)] or ordinary


def _in_region(kind: Cancel, seen: CancelSeen) -> bool:
    if "london_local" in kind.regions:
        return seen.region == "london" and seen.to_region in ("", "london")
    if "london_inland" in kind.regions:
        return seen.region == "london" and seen.to_region != "london"
    return seen.region in kind.regions


def _town_known(kind: Cancel, seen: CancelSeen) -> bool:
    return seen.town.casefold() in (town.casefold() for town in kind.towns)


def _best(kinds: list[Cancel], seen: CancelSeen, when: When) -> CancelAnswer:
    """The kindest answer of the kinds whose dates lie nearest to the day."""
    nearest = min(distance(kind, when) for kind in kinds)
    answers = [_on_day(kind, seen, when) for kind in kinds if distance(kind, when) == nearest]
    return min(answers, key=lambda each: (each.speaks == "against", STRENGTHS.index(each.strength)))


def distance(kind: Cancel, when: When) -> int:
    """Days between a date and a kind's period; 0 within it or within a stretch of known use."""
    stretches = [(kind.first, kind.last)] + [(each.first, each.last) for each in kind.exceptions]
    return min(_days_off(when, first, last) for first, last in stretches)


def _days_off(when: When, first: str, last: str) -> int:
    early = (date.fromisoformat(first) - when.latest).days
    late = (when.earliest - date.fromisoformat(last)).days
    return max(0, early, late)


def _on_day(kind: Cancel, seen: CancelSeen, when: When) -> CancelAnswer:
    for known in kind.exceptions:
        if _days_off(when, known.first, known.last) == 0 and when.exact:
            return _answer(
                "exceptional", "against", known.strength, f"{_name(kind)}: {known.text}.", kind
            )
    early = when.latest < date.fromisoformat(kind.first)
    late = when.earliest > date.fromisoformat(kind.last)
    if early or late:
        strength = _before(kind, when) if early else kind.after
        text = f"{_name(kind)} is {_used(kind)}; {when.words()} is {'before' if early else 'after'} it"
        more = "" if strength == "strong" else f": {kind.out_of_period}"
        standing: Standing = "early" if early else "late"
        return _answer(standing, "against", strength, f"{text}{more}.", kind)
    if "london_local" in kind.regions and not _in_region(kind, seen):
        text = f"{_name(kind)} belongs to letters within London; elsewhere {kind.out_of_period}."
        return _answer("out of period", "against", "moderate", text, kind)
    if kind.towns and not _town_known(kind, seen):
        text = f"{_name(kind)} is known of few towns; {kind.out_of_period}."
        return _answer("exceptional", "against", "moderate", text, kind)
    if kind.always != "none":
        return _answer(
            "exceptional", "against", kind.always, f"{_name(kind)}: {kind.out_of_period}.", kind
        )
    text = f"{_name(kind)} is {_used(kind)}; {when.words()} is within it."
    return _answer("in period", "for", "weak", text, kind)


def _before(kind: Cancel, when: When) -> Strength:
    """How strongly a date before the first known use speaks: a memory never condemns."""
    memory = "memory" in (kind.source, kind.date_source)
    sure = not memory and not kind.proved_before
    if kind.proved_before:
        sure = when.latest < date.fromisoformat(kind.proved_before)
    return kind.before if sure else weaker(kind.before, "moderate")


def _name(kind: Cancel) -> str:
    plain = kind.family == "maltese_cross" and not kind.exceptional and not kind.first_number
    return f"{kind.kind} in {kind.colours[0]}" if plain else kind.kind


def _used(kind: Cancel) -> str:
    first, last = read_date(kind.first).words(), read_date(kind.last).words()
    how = {"official": "by order from", "recorded": "recorded from", "period": "usual about"}[
        kind.date_kind
    ]
    return f"{how} {first} to {last}"


def _in_ink(kind: Cancel, seen: CancelSeen) -> CancelAnswer:
    if kind.always != "none":
        return _answer(
            "exceptional", "against", kind.always, f"{_name(kind)}: {kind.out_of_period}.", kind
        )
    return _answer(
        "in period", "for", "weak", f"{seen.colour.capitalize()} is a usual ink for it.", kind
    )


def _colour_unknown(postal: Postal, seen: CancelSeen) -> CancelAnswer:
    kinds = kinds_of(postal, seen)
    if not kinds:
        return _unknown("")
    kind = kinds[0]
    usual = ", ".join(kind.inks)
    text = f"{seen.colour.capitalize()} is not an ink recorded for this kind (usual: {usual})."
    return _answer("out of period", "against", "moderate", text, kind)


def _answer(
    standing: Standing, speaks: Speaks, strength: Strength, text: str, kind: Cancel
) -> CancelAnswer:
    if strength == "none":
        speaks = "neutral"
    return CancelAnswer(standing, speaks, strength, text, kind.source, kind.confidence, kind.id)


def _unknown(text: str) -> CancelAnswer:
    return CancelAnswer("not known", "neutral", "none", text, "", "")
