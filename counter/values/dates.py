"""ISO dates, whole or partial: "1840-05-12", "1840-05", "1841", each with its first and last day.

A partial date is not a point but a stretch of days, so comparing two dates has three answers:
before, after, or may overlap.
"""

from __future__ import annotations

import calendar
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Literal

from counter.values.errors import InputError

Order = Literal["before", "after", "may overlap"]
Within = Literal["yes", "no", "maybe"]

_ISO = re.compile(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?")
MONTHS = tuple(calendar.month_name)[1:]


@dataclass(frozen=True, slots=True)
class When:
    """A day, a month or a year: `text` as written, `earliest` and `latest` the days it may be."""

    text: str
    earliest: date
    latest: date

    @property
    def exact(self) -> bool:
        """True when it is one day."""
        return self.earliest == self.latest

    def compared(self, other: When) -> Order:
        """Whether this lies before or after the other, or may fall on the same day."""
        if self.latest < other.earliest:
            return "before"
        return "after" if self.earliest > other.latest else "may overlap"

    def within(self, first: When, last: When) -> Within:
        """Whether this falls in a period, both ends included; a partly known end makes a maybe."""
        if self.compared(first) == "before" or self.compared(last) == "after":
            return "no"
        sure = self.earliest >= first.latest and self.latest <= last.earliest
        return "yes" if sure else "maybe"

    def words(self) -> str:
        """As it is said: "12 March 1842", "March 1842", "1842"; any other span by its two ends."""
        return _span_words(self.earliest, self.latest)

    def short(self) -> str:
        """The same for a column: "12 Mar 1842", " 1 May 1840", "May 1840"."""
        words = self.words()
        day, month, year = ("", *words.split())[-3:] if " " in words else ("", "", words)
        return f"{day:>2} {month[:3]} {year}" if day else f"{month[:3]} {year}".strip()


@lru_cache(maxsize=4096)
def _span_words(first: date, last: date) -> str:
    if first == last:
        return _day(first)
    if first.day > 1 or (last + timedelta(1)).day > 1:
        return f"{_day(first)} to {_day(last)}"
    if (first.year, first.month) == (last.year, last.month):
        return _month(first)
    if (first.month, last.month) != (1, 12):
        return f"{_month(first)} to {_month(last)}"
    return str(first.year) if first.year == last.year else f"{first.year} to {last.year}"


def _month(day: date) -> str:
    return f"{MONTHS[day.month - 1]} {day.year}"


def _day(day: date) -> str:
    return f"{day.day} {_month(day)}"


@lru_cache(maxsize=4096)
def read_date(text: str) -> When:
    """The date of ISO text, whole or partial; raises InputError when it is not one."""
    found = _ISO.fullmatch(text.strip())
    try:
        if not found:
            raise ValueError
        year, month, day = (int(part) if part else None for part in found.groups())
        return _when(text.strip(), year or 0, month, day)
    except ValueError:
        raise InputError(f"{text!r} is not a date; write it as 1842-03-12, 1842-03 or 1842.") from None


def on_day(day: date) -> When:
    """A whole day as a When."""
    return When(day.isoformat(), day, day)


def _when(text: str, year: int, month: int | None, day: int | None) -> When:
    if month is None:
        return When(text, date(year, 1, 1), date(year, 12, 31))
    if day is None:
        last = calendar.monthrange(year, month)[1] if 1 <= month <= 12 else 0
        return When(text, date(year, month, 1), date(year, month, last))
    whole = date(year, month, day)
    return When(text, whole, whole)


def day_words(iso: str) -> str:
    """An ISO date as said: "12 May 1840"; anything else is kept as it was noted."""
    return _told(iso, When.words)


def short_day(iso: str) -> str:
    """An ISO date for a column: "12 May 1840" with the month in three letters."""
    return _told(iso, When.short)


def _told(iso: str, tell: Callable[[When], str]) -> str:
    try:
        return tell(read_date(iso)) if iso else ""
    except InputError:
        return iso
