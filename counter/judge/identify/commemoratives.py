"""Commemorative sets that a line speaks of, by subject, year and denomination."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.identify.card import CardLine
from counter.judge.observation import Observation, Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_records import Commemorative
from counter.values.dates import read_date

_FIRST_YEAR = 1924
#: A line that speaks of one of these is not about a commemorative it does not name.
_OTHER_STAMP = frozenset({
    "series", "plate", "letters", "corners", "watermark", "lines", "die", "alphabet", "overprint",
    "dots", "process", "printer", "cancel", "attachment", "tied", "town", "stampless", "reign",
    "country", "other_kind", "phosphor", "tell",
})  # fmt: skip


def subject_seen(reading: Reading, stamps: Stamps) -> Observation | None:
    """The commemorative's subject that a line asserts, None when it speaks of no set.

    A name of a series means the set where the year typed is that of such a set: a jubilee of 1935 is
    no stamp of 1887. A year alone, when the subject has a set of it, is part of the subject.
    """
    year, value = _year(reading), reading.first("denomination")
    for seen in reading.all("subject"):
        if year and stamps.commemoratives_of(year=year, subject=seen.value):
            return _named(seen, f"{seen.value}|{year}")
        return seen
    for seen in reading.all("series"):
        alike = stamps.errors.sets_by_series.get(seen.value, "")
        if alike and year and stamps.commemoratives_of(year=year, subject=alike, value=value):
            return _named(seen, f"{alike}|{year}")
    return None


def _named(seen: Observation, subject: str) -> Observation:
    return Observation("subject", subject, seen.words, seen.start, seen.end, seen.slip)


def _year(reading: Reading) -> int | None:
    """The year that is typed without a day: a whole date is one of use."""
    typed = reading.first("date")
    return int(typed) if len(typed) == 4 and typed.isdecimal() and int(typed) >= _FIRST_YEAR else None


def commemoratives_for(reading: Reading, stamps: Stamps) -> tuple[Commemorative, ...]:
    """The sets that a line may mean, the oldest first; none when it speaks of another stamp.

    The subject decides; the denomination narrows it while a set is left. Without a subject a year
    from 1924 on gives the sets of that year that hold the denomination.
    """
    value, subject = reading.first("denomination"), subject_seen(reading, stamps)
    if subject is not None:
        return stamps.commemoratives_of(subject=subject.value, value=value) or (
            stamps.commemoratives_of(subject=subject.value)
        )
    year = reading.first("date")[:4]
    other = any(each.kind in _OTHER_STAMP for each in reading.observations)
    if other or not year.isdecimal() or int(year) < _FIRST_YEAR:
        return ()
    return stamps.commemoratives_of(year=int(year), value=value)


def commemorative_lines(sets: tuple[Commemorative, ...], value: str) -> Iterator[CardLine]:
    """The sets as lines of a card; `value` is the denomination asked for, or ""."""
    for each in sets:
        lacks = f"; no {value} in it" if value and value not in each.denominations else ""
        text = f"{read_date(each.date).words()}: {each.subject} ({', '.join(each.values)}){lacks}"
        yield CardLine("commemorative", text, each.source, each.confidence)
        if each.note:
            yield CardLine("note", each.note, each.source, each.confidence)
