"""How an answer typed on the cover form is read into the case, in the trade's own shorthand."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from counter.desk.covers.case import CoverCase
from counter.desk.covers.stamps_seen import franked_of
from counter.judge.cover.cover_facts import CoverSeen, Franked
from counter.judge.cover.franked_stamps import count_of
from counter.judge.cover.from_reading import cancels_read, charges_read, weight_or_none
from counter.judge.cover.stamp_dates import stamp_dates
from counter.judge.observation import Reading
from counter.judge.reading import read_line
from counter.values.dates import When, read_date
from counter.values.errors import InputError
from counter.values.postage import read_number, read_postage

Fields = dict[str, Any]
ReadAnswer = Callable[[CoverCase, str], Fields]

_REGION = re.compile(
    r"(?P<town>.*?)[\s,]+\(?(?P<region>england|wales|scotland|ireland|abroad)\)?", re.IGNORECASE
)
_REGIONS = {"england": "england_wales", "wales": "england_wales"}
_NONE = ("none", "no", "nothing")
_MOST_TO_WEIGH = Fraction(100_000)  # ounces, miles or sheets: more is a slip of the hand


@dataclass(frozen=True, slots=True)
class PlainAnswer:
    """How one plain fact is read: the fields of CoverSeen it fills, and from which words."""

    fields: tuple[str, ...]
    read: ReadAnswer


def cover_answered(case: CoverCase, key: str, typed: str) -> CoverCase:
    """The case with one question answered; "" empties it. Raises InputError and changes nothing.

    `key` is a check's id (the answer is one of its values) or a key of PLAIN.
    """
    if key in case.library.postal.checks:
        return case.looked(key, typed)
    plain = PLAIN[key]
    if not typed:
        blank = CoverSeen()
        return case.answered(**{name: getattr(blank, name) for name in plain.fields})
    return case.answered(**plain.read(case, typed))


def _line(case: CoverCase, typed: str) -> Reading:
    return read_line(typed, case.library.vocabulary)


def _stamp(case: CoverCase, typed: str) -> Fields:
    """The stamps; a value alone names none where stamps are known, so it overwrites none."""
    reading = _line(case, typed)
    if said := reading.first("franking"):
        return {"franking": read_postage(said)}
    franked, due = franked_of(case.library, reading)
    stampless = bool(reading.first("stampless"))
    if not (franked or due or stampless):
        raise InputError(f"{typed} names no stamp; write it like 1d red imperf, or stampless.")
    bare = len(reading.observations) == 1 and reading.observations[0].kind == "denomination"
    if bare and (case.seen.stamps or case.seen.value):
        raise InputError(
            f"{typed} is a value and names no stamp; write the stamp, like 1d red imperf, or for the "
            f"whole franking write franked {typed}."
        )
    first = franked[0] if franked else Franked()
    return {
        "stamps": first.stamps,
        "value": first.value,
        "count": first.count,
        "beside": franked[1:],
        "due": due,
        "stampless": stampless or not franked,
    }


def _date(case: CoverCase, typed: str) -> When:
    try:
        return read_date(_line(case, f"date {typed}").first("date"))
    except InputError:
        raise InputError(
            f"{typed} is not a date; write it like 12 mar 1842, 12.3.42, mar 1842 or 1842."
        ) from None


def _arrivals(case: CoverCase, typed: str) -> Fields:
    if typed.casefold() in _NONE:
        return {"arrivals": (), "backstamp": "none"}
    dates = tuple(_date(case, part) for part in re.split(r"\s*(?:[,;+&]|\band\b)\s*", typed) if part)
    return {"arrivals": dates, "backstamp": "present"}


def _cancel(case: CoverCase, typed: str) -> Fields:
    reading = _line(case, typed)
    if not reading.first("cancel"):
        raise InputError(
            f"{typed} is not a kind of cancel; write mx, numeral 46, duplex, cds, pen or none."
        )
    fields = cancels_read(reading, case.library.postal)
    colour = fields.pop("cancel_colour") or reading.first("colour")
    return fields | ({"cancel_colour": colour} if colour else {})


def _cancel_colour(case: CoverCase, typed: str) -> Fields:
    colour = _line(case, f"{typed} mx").first("cancel_colour")
    if not colour:
        raise InputError(f"{typed} is not a colour of cancels; write red, black, blue, brown or green.")
    return {"cancel_colour": colour}


def _town(case: CoverCase, typed: str) -> Fields:
    """A town; one that the reference does not know may have its country beside it."""
    found = _REGION.fullmatch(typed)
    place = case.library.postal.place(typed)
    if place or not found:
        return {"town": typed, "region": place.region if place else ""}
    said = found["region"].casefold()
    return {"town": found["town"], "region": _REGIONS.get(said, said)}


def _to(case: CoverCase, typed: str) -> Fields:
    place = case.library.postal.place(typed)
    abroad = place is not None and place.region == "abroad"
    return {"to_abroad": typed if abroad else "", "to_town": "" if abroad else typed}


def _weight(case: CoverCase, typed: str) -> Fields:
    """½ oz, 20 g, a bare number of ounces; or sheets and miles."""
    reading = _line(case, typed)
    fields: Fields = {}
    if weight := weight_or_none(reading.first("weight")):
        fields["ounces"] = weight
    for kind, made in (("sheets", int), ("miles", Fraction)):
        if reading.first(kind):
            fields[kind] = made(reading.first(kind))
    if not fields:
        fields["ounces"] = read_number(typed.strip())
    if not all(0 < each <= _MOST_TO_WEIGH for each in fields.values()):
        raise InputError(f"{typed} is no weight of a letter; write ½ oz, 20 g, or 2 sheets 120 miles.")
    return fields


def _marks(case: CoverCase, typed: str) -> Fields:
    answers = {name: said for name, said in case.seen.answers.items() if name != "charge_marks"}
    if typed.casefold() in _NONE:
        return {"marks": (), "charge": None, "answers": {**answers, "charge_marks": "none"}}
    marks, charge = charges_read(_line(case, typed))
    if not marks and charge is None:
        raise InputError(
            f"{typed} is no mark the reference knows; write paid 1, manuscript 2, more to pay, "
            "charged 4d, registered, late fee, redirected or none."
        )
    colour = _line(case, typed).first("mark_colour")
    return {"marks": marks, "mark_colour": colour, "charge": charge, "answers": answers}


def _plates(case: CoverCase, typed: str) -> Fields:
    parts = re.split(r"[\s,]+", typed.strip())
    plates = [_line(case, f"plate {part.removeprefix('pl')}").first("plate") for part in parts]
    if not all(plates):
        raise InputError(f"{typed} is not a plate; write its number, such as 36 or 1b.")
    value = case.seen.value.words() if case.seen.value else ""
    stamps = tuple(
        replace(
            stamp_dates(case.library.stamps, each.id, plates[0], value=value),
            issued=each.issued,
            likely=each.likely,
        )
        for each in case.seen.stamps
    )
    return {"plates": tuple(dict.fromkeys(plates)), "stamps": stamps}


def _letters(case: CoverCase, typed: str) -> Fields:
    reading = _line(case, f"lettered {typed}")
    letters = tuple(seen.value for seen in reading.all("letters"))
    if not letters:
        raise InputError(f"{typed} are no check letters; write KC, or KC KD pair for more stamps.")
    guess = "single" if len(letters) == 1 else case.seen.multiple
    multiple = reading.first("multiple") or guess
    return {"letters": letters, "multiple": multiple, "count": count_of(multiple, len(letters))}


def _faults(case: CoverCase, typed: str) -> Fields:
    faults = tuple(seen.value for seen in _line(case, typed).all("fault"))
    if not faults and typed.casefold() not in _NONE:
        raise InputError(f"{typed} is no fault the reference knows; write thin, tear, crease or none.")
    return {"faults": faults}


def _chosen(name: str) -> PlainAnswer:
    """A question whose answer is one of the field's own values."""
    return PlainAnswer((name,), lambda _, typed: {name: typed})


PLAIN: dict[str, PlainAnswer] = {
    "stamp": PlainAnswer(("stamps", "value", "count", "beside", "due", "stampless"), _stamp),
    "when": PlainAnswer(("when",), lambda case, typed: {"when": _date(case, typed)}),
    "second": PlainAnswer(("second",), lambda case, typed: {"second": _date(case, typed)}),
    "tied": _chosen("tied"),
    "cancel": PlainAnswer(("cancel", "cancel_type", "cancel_number", "more_cancels"), _cancel),
    "cancel_colour": PlainAnswer(("cancel_colour",), _cancel_colour),
    "town": PlainAnswer(("town", "region"), _town),
    "region": _chosen("region"),
    "to": PlainAnswer(("to_town", "to_abroad"), _to),
    "franking": PlainAnswer(("franking",), lambda _, typed: {"franking": read_postage(typed)}),
    "ounces": PlainAnswer(("ounces", "sheets", "miles"), _weight),
    "service": _chosen("service"),
    "marks": PlainAnswer(("marks", "mark_colour", "charge"), _marks),
    "arrivals": PlainAnswer(("arrivals", "backstamp"), _arrivals),
    "plates": PlainAnswer(("plates",), _plates),
    "letters": PlainAnswer(("letters", "multiple", "count"), _letters),
    "faults": PlainAnswer(("faults",), _faults),
    "attachment": _chosen("attachment"),
}
