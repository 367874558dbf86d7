"""Which plates of an issue remain for what was seen: letters, date, alphabet and die rule numbers out."""

from __future__ import annotations

from dataclasses import dataclass

from counter.judge.cover.plate_record import plate_days, plate_record
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_plate import Plate
from counter.values.dates import read_date
from counter.values.errors import InputError

#: What no use can come before; an earliest known use may yet be beaten.
_LIMITS = ("put to press", "registered", "first issued")
_PRINTED = "read the plate number at both sides, under a glass"
_PLATED = (
    "its number is not on the stamp: compare the place of both letters in their squares, guide lines and "
    "dots, and any double or recut corner with a plating record"
)


@dataclass(frozen=True, slots=True)
class RuledOut:
    """A plate that what was seen speaks against, and why; `source` is that of the record."""

    plate: str
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class PlatesLeft:
    """The numbers that remain and those ruled out, in their order, and what to look for next. A number with
    no record of its own remains: nothing is known against it."""

    left: tuple[str, ...]
    out: tuple[RuledOut, ...]
    look_next: str


def plates_left(issue: str, reading: Reading, stamps: Stamps) -> PlatesLeft:
    """The plates of an issue by what a line says of the stamp. Raises KeyError for an unknown issue.

    What is only remembered rules no plate out.
    """
    left: list[str] = []
    out: list[RuledOut] = []
    for number in sorted(stamps.plate_numbers[issue], key=_in_order):
        plate = plate_record(stamps, issue, number)
        why = _why_not(plate, reading) if plate else ""
        if plate and why:
            out.append(RuledOut(number, why, plate.source))
        else:
            left.append(number)
    printed = stamps.issues[issue].characters.number_on_stamp
    return PlatesLeft(tuple(left), tuple(out), _PRINTED if printed else _PLATED)


def _in_order(number: str) -> tuple[bool, int, str]:
    figures = "".join(each for each in number if each.isdigit())
    return not number[:1].isdigit(), int(figures or 0), number


def _why_not(plate: Plate, reading: Reading) -> str:
    for kind, known in (("alphabet", plate.alphabet), ("die", plate.die)):
        said = {value for seen in reading.all(kind) for value in seen.value.split("|")}
        if said and known and known not in said:
            return f"{kind} {known}"
        if known and known in reading.denied(kind):
            return f"{kind} {known}, which was denied"
    return _too_early(plate, reading)


def _too_early(plate: Plate, reading: Reading) -> str:
    if not reading.first("date"):
        return ""
    try:
        used = read_date(reading.first("date"))
    except InputError:
        return ""
    for known in plate_days(plate):
        fact = known.fact
        limit = known.how in _LIMITS and not fact.memory and fact.source != "memory"
        if limit and used.compared(fact.when) == "before":
            return f"{known.how} {fact.when.words()}"
    return ""
