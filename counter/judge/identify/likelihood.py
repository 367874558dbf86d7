"""How likely a named character is to be seen on an issue that may show some states of it."""

from __future__ import annotations

from collections.abc import Callable

from counter.judge.identify.variants import Variant
from counter.reference.stamps import Stamps
from counter.reference.stamps_error import ErrorModel, Unsaid

#: The states an issue may show, by kind of observation.
STATES: dict[str, Callable[[Variant], tuple[str, ...]]] = {
    "denomination": lambda each: (each.stamp.value,),
    "separation": lambda each: each.characters.separations,
    "corners": lambda each: each.characters.corners,
    "watermark": lambda each: each.watermarks,
    "watermark_way": lambda each: each.characters.watermark_ways,
    "paper": lambda each: each.characters.papers,
    "lines": lambda each: each.characters.lines,
    "die": lambda each: each.characters.dies,
    "alphabet": lambda each: each.characters.alphabets,
    "reign": lambda each: each.characters.reigns,
    "process": lambda each: each.characters.processes,
    "dots": lambda each: each.characters.dots,
    "overprint": lambda each: each.characters.overprints or ("none",),
    "phosphor": lambda each: each.characters.phosphor,
    "series": lambda each: each.characters.series,
    "printer": lambda each: each.characters.printers,
    "country": lambda each: each.stamp.countries,
    "hair_lines": lambda each: each.characters.hair_lines,
    "height": lambda each: each.characters.heights,
    "background": lambda each: each.characters.backgrounds,
}

#: Kinds that only some stamps have at all; on any other stamp they are not spoken of.
_ONLY_SOME = frozenset({"lines", "die", "alphabet", "dots", "country"})

#: Kinds whose states are several names of one thing: a Seahorse is a high value too, and bands and
#: graphite lines stand on one stamp.
_NAMES = frozenset({"series", "country", "phosphor"})


def states(kind: str, variant: Variant) -> tuple[str, ...]:
    """The states of a kind that a stamp may show; () when not established or not applicable."""
    return STATES[kind](variant)


def agrees(kind: str, variant: Variant, values: tuple[str, ...], errors: ErrorModel) -> bool:
    """Whether one of the values is a state of the stamp, or a looser word for one."""
    for state in states(kind, variant):
        row = errors.seen_as.get((kind, state), {})
        for value in values:
            if value == state or (value in row and row[value].agrees):
                return True
    return False


def state_likelihood(
    kind: str, variant: Variant, values: tuple[str, ...], errors: ErrorModel
) -> float | None:
    """P(one of the values is said | the stamp), 0 to 1; None when the reference does not say."""
    possible = states(kind, variant)
    if not possible:
        return _without_states(kind, variant, values, errors)
    each = [sum(seen_given(kind, state, value, errors) for value in values) for state in possible]
    return max(each) if kind in _NAMES else sum(each) / len(possible)


def seen_given(kind: str, truly: str, seen: str, errors: ErrorModel) -> float:
    """P(said to be `seen` | it is `truly`), 0 to 1."""
    character = errors.characters[kind]
    row = errors.seen_as.get((kind, truly), {})
    if seen == truly:
        return 1 - character.misread - sum(each.share for each in row.values())
    if seen in row:
        return row[seen].share
    return character.misread / character.others


def _without_states(
    kind: str, variant: Variant, values: tuple[str, ...], errors: ErrorModel
) -> float | None:
    if kind not in _ONLY_SOME:
        return None
    engraved = variant.characters.processes == ("line_engraved",)
    if kind in ("die", "alphabet") and engraved:
        return None  # it has one, but the reference does not say which
    if values == ("none",):
        return None
    return errors.figures["character_unasked"]


#: Kinds of which some values belong to a few issues and to no other.
TELLS = frozenset({"tell", "condition", "variety"})


def tell_of(kind: str, value: str, stamps: Stamps) -> tuple[tuple[str, ...], str]:
    """The issues that a named tell or a variety belongs to and what it says; () for any issue."""
    if kind == "variety":
        return stamps.varieties[value].issues, stamps.varieties[value].what
    tell = stamps.errors.tells.get((kind, value))
    return (tell.issues, tell.says) if tell else ((), "")


def tell_likelihood(kind: str, variant: Variant, value: str, stamps: Stamps) -> float | None:
    """P(a named tell is remarked | the stamp): "ivory head" of a stamp on blued paper; None for words
    that tell no issue from another."""
    issues, _ = tell_of(kind, value, stamps)
    if not issues:
        return None
    character = stamps.errors.characters[kind]
    fits = variant.issue.id in issues
    return 1 - character.misread if fits else character.misread / character.others


def striking(row: Unsaid, variant: Variant) -> bool:
    """Whether a stamp has the striking character that a row is about."""
    if row.kind == "plate":
        return variant.characters.number_on_stamp
    possible = variant.stamp.colours[:1] if row.kind == "colour" else states(row.kind, variant)
    if not row.states:
        return bool(possible) and "none" not in possible
    if row.kind in _NAMES:
        return bool(set(possible) & set(row.states))
    return bool(possible) and set(possible) <= set(row.states)
