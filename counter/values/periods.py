"""A period of the book, its days as ISO text: read from a few words; the ones before and after it."""

from __future__ import annotations

import re
from datetime import date, timedelta

from counter.values.date_words import date_of_words
from counter.values.days import day_before, months_later, read_period
from counter.values.errors import InputError

_QUARTER = re.compile(r"(?:([12][0-9]{3})[ -]?)?q([1-4])(?: ([12][0-9]{3}))?")
_TAX_YEAR = re.compile(r"tax(?: year)? ([12][0-9]{3})(?:[-/][0-9]{2,4})?")
_BETWEEN = re.compile(
    r"\s+(?:to|until|till|-|–)\s+|\s*(?:–|\.\.)\s*|(?<=[0-9]{4}-[0-9]{2}-[0-9]{2})[\s-]"
)


def read_period_words(text: str, today: str, months: int = 3) -> tuple[str, str]:
    """The first and the last day of a period as typed.

    "" is the VAT period of today (of so many months); a year, a month or a day, or two of them, as
    date_words.py reads them; "q2 2026", "q2" (of this year); "tax 2025". Raises InputError.
    """
    words = text.strip().lower()
    if not words:
        return period_of(today, months)
    if found := _QUARTER.fullmatch(words):
        years = {year for year in (found[1], found[3]) if year} or {today[:4]}
        if len(years) == 1:
            return period_of(f"{years.pop()}-{int(found[2]) * 3 - 2:02d}-01", 3)
    if found := _TAX_YEAR.fullmatch(words):
        return f"{found[1]}-04-06", f"{int(found[1]) + 1}-04-05"
    ends = [part for part in _BETWEEN.split(words) if part]
    try:
        whens = [date_of_words(part, today[:2]) for part in ends]
    except InputError:
        whens = []
    if not 1 <= len(whens) <= 2:
        raise InputError(
            f"{text.strip()} is not a period; write q2 2026, apr 2026, 2026, tax 2025, "
            "or 1.4.26 to 30.6.26."
        )
    return read_period(whens[0].earliest.isoformat(), whens[-1].latest.isoformat())


def period_of(day: str, months: int) -> tuple[str, str]:
    """The period of so many months, counted from January, that a day lies in."""
    then = date.fromisoformat(day)
    first = (then.month - 1) // months * months
    return _month(then.year, first), day_before(_month(then.year, min(first + months, 12)))


def neighbour(since: str, until: str, step: int) -> tuple[str, str]:
    """The period of like length before (-1) or after (1) one: whole months stay whole months."""
    first, last = date.fromisoformat(since), date.fromisoformat(until)
    after = last + timedelta(days=1)
    months = (after.year - first.year) * 12 + after.month - first.month
    if first.day == after.day and months and first.day <= 28:
        begin = months_later(since, step * months)
        return begin, day_before(months_later(begin, months))
    span = after - first
    return (first + step * span).isoformat(), (last + step * span).isoformat()


def _month(year: int, months: int) -> str:
    return date(year + months // 12, months % 12 + 1, 1).isoformat()
