"""The one plate record of an issue's plate number, and what is known of that plate's days.

Numbers began again more than once: 1d red plate 20 was made for stars of Die I, for stars of Die II and
for letters in four corners. The record is matched by all that the issue is told by.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from counter.judge.cover.dated_facts import DatedFact, written_day
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Issue
from counter.reference.stamps_plate import Plate

#: What is known of a plate's beginning, the hardest first: only the first is a limit in itself.
How = Literal[
    "put to press",
    "registered",
    "first issued",
    "earliest use",
    "inferred",
    "recalled",
    "by its number",
]
_YEAR = re.compile(r"\d{4}(?:-\d{2})?")


@dataclass(frozen=True, slots=True)
class PlateDay:
    """A day in a plate's life and how it is known."""

    how: How
    fact: DatedFact


def plate_record(stamps: Stamps, issue: str, number: str) -> Plate | None:
    """The record of a number of an issue; None where none is known or two fit alike."""
    record = stamps.issues[issue]
    told = [(_alike(plate, record), plate) for plate in stamps.plates_of(issue, number)]
    fitting = [(alike, plate) for alike, plate in told if alike is not None]
    best = max((alike for alike, _ in fitting), default=0)
    first = [plate for alike, plate in fitting if alike == best]
    return first[0] if len(first) == 1 else None


def plate_days(plate: Plate | None) -> tuple[PlateDay, ...]:
    """Every dated fact of its beginning, the hardest first; empty where none is known."""
    if plate is None:
        return ()
    source, sure = plate.source, plate.confidence
    known: list[tuple[How, DatedFact | None]] = [
        ("put to press", written_day(plate.put_to_press, plate.put_to_press_source or source, sure)),
        ("registered", written_day(plate.registered, plate.registered_source or source, sure)),
        ("first issued", written_day(plate.first_issued, source, sure)),
        (
            "earliest use",
            written_day(plate.earliest_known_use, plate.earliest_known_use_source or source, sure),
        ),
        ("inferred", written_day(plate.not_before, plate.not_before_source or "memory", sure)),
        ("recalled", written_day(_opening(plate.approx_first_use), "memory", "low")),
    ]
    return tuple(PlateDay(how, fact) for how, fact in known if fact)


def _opening(span: str) -> str:
    """The first year of "1877-1879", which is no month."""
    found = _YEAR.match(span)
    if not found:
        return ""
    return span[:4] if re.fullmatch(r"\d{4}-\d{4}", span) else found[0]


def _alike(plate: Plate, issue: Issue) -> int | None:
    """In how many things plate and issue agree; None where they differ in one."""
    traits = issue.characters
    told = [
        (plate.die, traits.dies),
        (plate.alphabet, traits.alphabets),
        (plate.white_lines, traits.lines),
        (", ".join(plate.watermark), traits.watermarks),
        (", ".join(way.split(" ")[0] for way in plate.separation), traits.separations),
    ]
    if any(one and several and not set(one.split(", ")) & set(several) for one, several in told):
        return None
    if plate.plate_number_on_stamp not in (None, traits.number_on_stamp):
        return None
    agree = sum(bool(one and several) for one, several in told)
    agree += plate.plate_number_on_stamp is not None
    agree += any(colour in plate.series for stamp in traits.stamps for colour in stamp.colours)
    return 2 * agree + _separated_alike(plate, issue)


def _separated_alike(plate: Plate, issue: Issue) -> int:
    """1 where the plate is known in no other separation than the issue's."""
    ways = {way.split(" ")[0] for way in plate.separation}
    return int(bool(ways) and ways <= set(issue.characters.separations))
