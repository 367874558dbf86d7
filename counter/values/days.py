"""Whole days of business, as ISO text: a sale, a purchase, a period of the book."""

from __future__ import annotations

import re
from calendar import monthrange
from datetime import date, timedelta

from counter.values.errors import InputError


def read_day(text: str, wanted: str = "a date") -> str:
    """A whole ISO day such as 2026-05-01; raises InputError for anything else."""
    try:
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text.strip()):
            raise ValueError
        return date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        raise InputError(f"{text!r} is not {wanted}; write it as 2026-05-01.") from None


def read_period(since: str, until: str) -> tuple[str, str]:
    """First and last day of a period; raises InputError when it ends before it begins."""
    first, last = read_day(since), read_day(until)
    if last < first:
        raise InputError(f"The period ends on {last}, before it begins on {first}.")
    return first, last


def months_later(day: str, months: int) -> str:
    """The same day so many months on; the last of a month that is shorter."""
    then = date.fromisoformat(day)
    year, month = divmod(then.year * 12 + then.month - 1 + months, 12)
    return date(year, month + 1, min(then.day, monthrange(year, month + 1)[1])).isoformat()


def years_later(day: str, years: int) -> str:
    """The same day so many years on; 29 February becomes the 28th where there is none."""
    return months_later(day, 12 * years)


def day_before(day: str) -> str:
    """The day before a day."""
    return (date.fromisoformat(day) - timedelta(days=1)).isoformat()


def months_between(earlier: str, later: str) -> float:
    """How many months lie between two days, by the mean month; for weights, never for money."""
    days = (date.fromisoformat(later) - date.fromisoformat(earlier)).days
    return days / 30.436875


def tax_year_end(day: str) -> str:
    """The 5 April that ends the tax year a day falls in."""
    year = int(day[:4]) + (day[5:] > "04-05")
    return f"{year}-04-05"


def filing_deadline(tax_year: str) -> str:
    """The 31 January by which the return of a tax year (its last day) is filed."""
    return f"{int(tax_year[:4]) + 1}-01-31"
