"""The dates of a stamp from the reference: its issue, its value, its plate."""

from __future__ import annotations

from datetime import timedelta
from functools import lru_cache

from counter.judge.cover.cover_facts import StampDates
from counter.judge.cover.dated_facts import DatedFact, written_day
from counter.judge.cover.plate_record import PlateDay, plate_days, plate_record
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Dated, Issue, Stamp
from counter.values.dates import When, on_day, read_date

#: A plate in the last quarter of its issue's numbers was hardly at work in the first years of a long
#: life (plates were made in the order of their numbers: common practice, an inference and no date).
_LATE_PLATE, _SLACK, _LONG_LIFE = 0.75, 0.6, timedelta(days=4 * 365)


@lru_cache(maxsize=2048)
def stamp_dates(
    stamps: Stamps,
    issue: str,
    plate: str = "",
    *,
    value: str = "",
    colours: frozenset[str] = frozenset(),
    likely: bool = True,
) -> StampDates:
    """When an issue, a value of it and a plate could be used; raises KeyError for an unknown issue."""
    record = stamps.issues[issue]
    issued, gone = (
        _bounds(record.characters.issued, record),
        _bounds(record.characters.superseded, record),
    )
    return StampDates(
        id=record.id,
        name=record.name,
        issued=_first_day(record, value, colours) or issued,
        valid=written_day(record.date_valid_from, record.source, record.confidence),
        superseded=gone,
        plate=plate,
        plate_days=_plate_days(stamps, record, plate, issued, gone),
        plate_fault=_plate_fault(stamps, record, plate),
        standing=record.characters.standing,
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


def _first_day(issue: Issue, value: str, colours: frozenset[str]) -> DatedFact | None:
    """The first day of a value: of its colour where that is named, else of the first to come."""
    of_value = [each for each in issue.characters.stamps if each.value == value and each.issued]
    named = [each for each in of_value if colours & set(each.colours)] or of_value
    days = [day for each in named if (day := _day_of(issue, each))]
    return min(days, key=lambda day: day.when.earliest, default=None)


def _day_of(issue: Issue, stamp: Stamp) -> DatedFact | None:
    memory = getattr(stamp, "recalled", False) or "values" in issue.fields_from_memory
    return written_day(stamp.issued, "memory" if memory else issue.source, issue.confidence)


def _plate_fault(stamps: Stamps, issue: Issue, plate: str) -> str:
    """That a number was never used for the issue, in the record's own words."""
    if not plate or plate not in stamps.unused_plates[issue.id]:
        return ""
    record = plate_record(stamps, issue.id, plate)
    return record.status if record and not record.used else "never used"


def _plate_days(
    stamps: Stamps, issue: Issue, plate: str, issued: DatedFact | None, gone: DatedFact | None
) -> tuple[PlateDay, ...]:
    if not plate:
        return ()
    known = plate_days(plate_record(stamps, issue.id, plate))
    if known or issued is None or gone is None:
        return known
    return _by_order(stamps, issue, plate, issued, gone)


def _by_order(
    stamps: Stamps, issue: Issue, plate: str, issued: DatedFact, gone: DatedFact
) -> tuple[PlateDay, ...]:
    """An inference from a plate's place among the numbers of its issue."""
    numbers = sorted(int(each) for each in stamps.plate_numbers[issue.id] if each.isdigit())
    life = gone.when.latest - issued.when.earliest
    if not plate.isdigit() or int(plate) not in numbers or len(numbers) < 3 or life < _LONG_LIFE:
        return ()
    place = numbers.index(int(plate)) / (len(numbers) - 1)
    if place < _LATE_PLATE:
        return ()
    day = on_day(issued.when.earliest + (place - _SLACK) * life)
    year = read_date(day.text[:4])
    return (PlateDay("by its number", DatedFact(year, "common practice", "low")),)
