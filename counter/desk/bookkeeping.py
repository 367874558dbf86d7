"""The book of a period in one go: lines, totals, warnings; and a period read from a few words."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta

from counter.desk.dealing import Dealing
from counter.ledger.book import BookLine
from counter.ledger.book_totals import Totals, registration_warning, totals
from counter.ledger.house import Business
from counter.ledger.papers.book_pages import book_csv, book_page
from counter.values.days import read_day, read_period
from counter.values.trouble import BadWords

_ISO = r"[0-9]{4}-[0-9]{2}-[0-9]{2}"


@dataclass(frozen=True, slots=True)
class PeriodRead:
    """The stock book of a period with its totals; `warned` is a sentence or ""."""

    since: str
    until: str
    lines: tuple[BookLine, ...]
    sums: Totals
    warned: str
    business: Business

    @property
    def gaps(self) -> tuple[BookLine, ...]:
        """The lines on which something is missing."""
        return tuple(line for line in self.lines if line.gaps)

    def csv(self) -> str:
        """Every line as CSV text."""
        return book_csv(self.lines)

    def page(self) -> str:
        """The period as a page to print."""
        return book_page(self.business, self.since, self.until, self.lines, self.sums)


def read_book(
    dealing: Dealing, since: str, until: str, told: Callable[[str], None] = lambda _: None
) -> PeriodRead:
    """Work the book of a period out; `told` hears how far it has come (this takes a while)."""
    book = dealing.book
    told("Reading purchases and sales …")
    lines = tuple(book.lines(since, until))
    told(f"Adding up {len(lines):,} lines …")
    sums = totals(book, since, until, lines)
    warned = registration_warning(book, until)
    return PeriodRead(since, until, lines, sums, warned, dealing.house.business)


def read_period_words(text: str, today: str, months: int = 3) -> tuple[str, str]:
    """A period as typed: "" (the VAT period of today), "2026", "2026-04", "2026 q2", "tax 2025",
    or two days. Raises BadWords.
    """
    words = text.strip().lower()
    if not words:
        return period_of(today, months)
    days = re.findall(_ISO, words)
    if len(days) == 2 and re.fullmatch(rf"{_ISO}\s*(?:to|-|–|\.\.)?\s*{_ISO}", words):
        return read_period(days[0], days[1])
    if len(days) == 1 and words == days[0]:
        return read_day(words), read_day(words)
    year = re.fullmatch(r"([12][0-9]{3})(?:[ -]?q([1-4])|-(0[1-9]|1[0-2]))?", words)
    if year:
        if year[3]:
            return period_of(f"{year[1]}-{year[3]}-01", 1)
        return period_of(f"{year[1]}-{int(year[2] or 1) * 3 - 2:02d}-01", 3 if year[2] else 12)
    tax = re.fullmatch(r"tax(?: year)? ([12][0-9]{3})(?:[-/][0-9]{2,4})?", words)
    if tax:
        return f"{tax[1]}-04-06", f"{int(tax[1]) + 1}-04-05"
    raise BadWords(
        f"{text.strip()} is not a period; write 2026 q2, 2026-04, 2026, tax 2025, "
        "or 2026-04-01 to 2026-06-30."
    )


def period_of(day: str, months: int) -> tuple[str, str]:
    """The period of so many months, counted from January, that a day lies in."""
    then = date.fromisoformat(day)
    first = (then.month - 1) // months * months
    return _month(then.year, first), _day_before(_month(then.year, min(first + months, 12)))


def neighbour(since: str, until: str, step: int) -> tuple[str, str]:
    """The period of like length before (-1) or after (1) one: whole months stay whole months."""
    first, last = date.fromisoformat(since), date.fromisoformat(until)
    after = last + timedelta(days=1)
    months = (after.year - first.year) * 12 + after.month - first.month
    if first.day == after.day and months and first.day <= 28:
        begin = _moved(first, step * months)
        return begin.isoformat(), (_moved(begin, months) - timedelta(days=1)).isoformat()
    span = after - first
    return (first + step * span).isoformat(), (last + step * span).isoformat()


def _moved(day: date, months: int) -> date:
    count = day.year * 12 + day.month - 1 + months
    return day.replace(year=count // 12, month=count % 12 + 1)


def _month(year: int, months: int) -> str:
    return date(year + months // 12, months % 12 + 1, 1).isoformat()


def _day_before(day: str) -> str:
    return (date.fromisoformat(day) - timedelta(days=1)).isoformat()
