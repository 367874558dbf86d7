"""The dates of a stamp from the reference: its issue, its plate."""

from __future__ import annotations

import re

from counter.judge.cover.cover_facts import DatedFact, StampDates
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Dated, Issue
from counter.reference.stamps_plate import Plate
from counter.values.dates import When, read_date

_LEADING = re.compile(r"\d{4}(?:-\d{2}(?:-\d{2})?)?")


def stamp_dates(stamps: Stamps, issue: str, plate: str = "", *, likely: bool = True) -> StampDates:
    """When an issue (and its plate, where the number leaves no doubt) could be used."""
    record = stamps.issues[issue]
    found = stamps.plates_of(issue, plate) if plate else ()
    one = found[0] if len(found) == 1 else None
    return StampDates(
        id=record.id,
        name=record.name,
        issued=_bounds(record.characters.issued, record),
        valid=_written(record.date_valid_from, record.source, record.confidence),
        superseded=_bounds(record.characters.superseded, record),
        plate=plate,
        pressed=_pressed(one),
        first_known=_first_known(one),
        likely=likely,
    )


def _bounds(dated: Dated, issue: Issue) -> DatedFact | None:
    if not dated.earliest or not dated.latest:
        return None
    first, last = read_date(dated.earliest), read_date(dated.latest)
    text = dated.earliest if first == last else f"{dated.earliest} to {dated.latest}"
    when = When(text, first.earliest, last.latest)
    source = "memory" if dated.memory else issue.source
    return DatedFact(when, source, issue.confidence, dated.memory)


def _pressed(plate: Plate | None) -> DatedFact | None:
    if plate is None:
        return None
    source = plate.put_to_press_source or plate.source
    pressed = _written(plate.put_to_press, source, plate.confidence)
    return pressed or _written(plate.not_before, plate.not_before_source or "memory", plate.confidence)


def _first_known(plate: Plate | None) -> DatedFact | None:
    if plate is None:
        return None
    source = plate.earliest_known_use_source or plate.source
    return _written(plate.earliest_known_use, source, plate.confidence)


def _written(text: str, source: str, confidence: str) -> DatedFact | None:
    """A date that begins with ISO and may be followed by a remark: "1840-07-27 (memory)"."""
    found = _LEADING.match(text)
    if not found:
        return None
    memory = source == "memory" or "memory" in text
    return DatedFact(read_date(found[0]), "memory" if memory else source, confidence, memory)
