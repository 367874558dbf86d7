"""How likely a named character is to be seen on an issue that may show some states of it."""

from __future__ import annotations

from collections.abc import Callable

from counter.judge.identify.variants import Variant
from counter.reference.stamps_error import ErrorModel

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
}

#: Kinds that only some stamps have at all; on any other stamp they are not spoken of.
_ONLY_SOME = frozenset({"lines", "die", "alphabet", "dots", "country"})

#: Kinds whose states are several names of one thing: a Seahorse is a high value too.
_NAMES = frozenset({"series", "country"})


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
