"""What of a reading is weighed: one piece of evidence a kind, colours and cancels put together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from counter.judge.observation import Observation, Said
from counter.reference.postal_numerals import is_code_abroad
from counter.reference.stamps_error import ErrorModel


@dataclass(frozen=True, slots=True)
class Clue:
    """One thing weighed. `said` is whether it is asserted, denied or doubted; `given` is what has been
    weighed before it and speaks of the same thing (the date before a cancel, perforations before a gauge)."""

    kind: str
    value: str
    words: str
    said: Said = "is"
    given: str = ""


def evidence_of(observations: Iterable[Observation], errors: ErrorModel) -> tuple[Clue, ...]:
    """The evidence that tells one issue from another: the first asserted of each kind, and every
    thing denied or doubted of a kind that nothing is asserted of.

    Further letterings of a multiple say no more about the issue. Two colours are one ("green and
    carmine"), a shade belongs to its colour, and red makes the Maltese cross an early one. Two names
    of a series both count: a Seahorse may be re-engraved too. A number in a cancel is a barred numeral's.
    """
    said = tuple(observations)
    kinds = errors.characters
    kept: dict[str, Clue] = {}
    for each in said:
        if each.kind in kinds and each.said == "is":
            _keep(each, kept)
    for each in said:
        if each.kind in kinds and each.said != "is" and each.kind not in kept:
            kept[f"{each.kind} {each.value} {each.said}"] = _evidence(each)
    _shaded(said, kept)
    _cancelled(said, kept)
    _measured(kept)
    return tuple(kept.values())


#: Kinds of which a stamp may show more than one thing at once.
_SEVERAL = ("series", "tell", "condition", "variety", "phosphor")


def _evidence(seen: Observation) -> Clue:
    return Clue(seen.kind, seen.value, seen.words, seen.said)


def _keep(seen: Observation, kept: dict[str, Clue]) -> None:
    if seen.kind == "colour" and "colour" in kept:
        kept["colour"] = _both_colours(kept["colour"], seen)
        return
    name = f"{seen.kind} {seen.value}" if seen.kind in _SEVERAL else seen.kind
    kept.setdefault(name, _evidence(seen))


def _both_colours(first: Clue, second: Observation) -> Clue:
    values = [*first.value.split("|")[0].split(" and "), second.value.split("|")[0]]
    words = first.words if second.words in first.words else f"{first.words} and {second.words}"
    return replace(first, value=" and ".join(dict.fromkeys(values)), words=words)


def _shaded(said: tuple[Observation, ...], kept: dict[str, Clue]) -> None:
    """A shade is the colour's: "pale green" is weighed as one name."""
    shade = next((each for each in said if each.kind == "shade" and each.said == "is"), None)
    colour = kept.get("colour")
    if shade is None or colour is None or " and " in colour.value:
        return
    value = "|".join(f"{shade.value} {each}" for each in colour.value.split("|"))
    words = colour.words if shade.value in colour.words else f"{shade.words} {colour.words}"
    kept["colour"] = replace(colour, value=value, words=words)


def _cancelled(said: tuple[Observation, ...], kept: dict[str, Clue]) -> None:
    """The cancel last, given the date: both tell of the same years, which are weighed once."""
    cancel = kept.pop("cancel", None)
    number = next((each for each in said if each.kind == "cancel_number" and each.said == "is"), None)
    if number is not None and (cancel is None or cancel.value == "numeral"):
        which = "numeral_abroad" if is_code_abroad(number.value) else "numeral"
        cancel = Clue("cancel", which, number.words)
    if cancel is None:
        return
    red = any(each.kind == "cancel_colour" and each.value == "red" for each in said)
    if red and cancel.value == "maltese_cross":
        cancel = replace(cancel, value="maltese_cross_red", words=f"red {cancel.words}")
    date = kept.get("date")
    given = date.value if date is not None and date.said == "is" else ""
    kept["cancel"] = replace(cancel, given=given)


def _measured(kept: dict[str, Clue]) -> None:
    """A gauge says again that there are perforations: where that is said it is weighed once."""
    if "gauge" in kept and "separation" in kept:
        kept["gauge"] = replace(kept["gauge"], given=kept["separation"].value)


def without_stamp(observations: Iterable[Observation], errors: ErrorModel) -> bool:
    """Whether the line is of a letter without a stamp: it says so, or says nothing of a stamp and is
    dated before there were any (1 May 1840)."""
    said = tuple(each for each in observations if each.said == "is")
    if any(each.kind == "stampless" for each in said):
        return True
    dates = [each.value for each in said if each.kind == "date"]
    of_stamp = errors.characters.keys() - {"date", "cancel"}
    return (
        bool(dates)
        and max(dates) < "1840-05"[: len(max(dates))]
        and not any(each.kind in of_stamp for each in said)
    )
