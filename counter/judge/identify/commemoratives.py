"""Commemorative sets by year, subject and denomination: looked up, never weighed."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.card import CardLine
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_records import Commemorative
from counter.values.dates import read_date

_FIRST_YEAR = 1924
#: A line that speaks of one of these is not about a commemorative it does not name.
_OTHER_STAMP = frozenset({
    "series", "plate", "letters", "corners", "watermark", "lines", "die", "alphabet", "overprint",
    "dots", "process", "printer", "cancel", "attachment", "tied", "town", "stampless", "reign",
})  # fmt: skip


def commemoratives_for(reading: Reading, stamps: Stamps) -> tuple[Commemorative, ...]:
    """The sets that a line may mean, the oldest first; none when it speaks of another stamp.

    The subject decides; year and denomination narrow it while a set is left. Without a subject a
    year from 1924 on gives the sets of that year that hold the denomination.
    """
    subject, value = reading.first("subject"), reading.first("denomination")
    year = _year(reading)
    if not subject and (
        year is None or any(seen.kind in _OTHER_STAMP for seen in reading.observations)
    ):
        return ()
    tries = ((year, value), (year, ""), (None, value), (None, "")) if subject else ((year, value),)
    for when, worth in tries:
        found = stamps.commemoratives_of(year=when, subject=subject, value=worth)
        if found:
            return found
    return ()


def _year(reading: Reading) -> int | None:
    year = int(reading.first("date")[:4] or 0)
    return year if year >= _FIRST_YEAR else None


def commemorative_lines(sets: tuple[Commemorative, ...], value: str) -> Iterator[CardLine]:
    """The sets as lines of a card; `value` is the denomination asked for, or ""."""
    for each in sets:
        lacks = f"; no {value} in it" if value and value not in each.values else ""
        text = f"{read_date(each.date).words()}: {each.subject} ({', '.join(each.values)}){lacks}"
        note = f"; {each.note}" if each.note else ""
        if each.fields_from_memory:
            note += f"; {' and '.join(each.fields_from_memory)} from memory"
        yield CardLine("commemorative", text + note, each.source, each.confidence)
