"""Dates as people write them: 12 may 1840, may 12th 1840, 12.5.40, may 1840, 1840 or 1840-05-12."""

from __future__ import annotations

import re

from counter.values.dates import MONTHS, When, read_date
from counter.values.errors import InputError

#: The months as they are spelt, short or whole; for patterns read without regard to capitals.
MONTH_SPELLINGS = (
    r"jan(?:uary)?|feb(?:ruary|y)?|mar(?:ch)?|apr(?:il|l)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober|r)?|nov(?:ember|r)?|dec(?:ember|r)?"
)
#: The number of a month by its first three letters.
MONTH_NUMBERS = {name[:3].lower(): number for number, name in enumerate(MONTHS, 1)}

_GAP = r"[\s\-./,]*"
_DAY = r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?"
_MONTH = rf"(?P<month>{MONTH_SPELLINGS})\.?"
_YEAR = r"(?P<year>[0-9]{4})"
_ANY_YEAR = r"'?(?P<year>[0-9]{4}|[0-9]{2})"
_FORMS = tuple(
    re.compile(form, re.ASCII)
    for form in (
        rf"{_DAY}(?:\s+of)?{_GAP}{_MONTH}{_GAP}{_ANY_YEAR}",
        rf"{_MONTH}\s*{_DAY}[\s,]+{_YEAR}",
        rf"{_MONTH}{_GAP}{_YEAR}",
        rf"{_YEAR}[\s,]+{_MONTH}(?:[\s,]+{_DAY})?",
        rf"(?P<day>[0-9]{{1,2}})[./-](?P<month>[0-9]{{1,2}})[./-]{_ANY_YEAR}",
    )
)


def date_of_words(text: str, century: str = "18") -> When:
    """The day, month or year that is written; `century` begins a year of two figures.

    Raises InputError when it is no date.
    """
    plain = text.strip().lower()
    found = next((each for form in _FORMS if (each := form.fullmatch(plain))), None)
    try:
        return read_date(_iso(found.groupdict(), century) if found else plain)
    except InputError:
        raise InputError(
            f"{text!r} is not a date; write it like 12 mar 1842, 12.3.1842, 1842-03-12 or 1842."
        ) from None


def day_of_words(text: str, wanted: str = "a date") -> str:
    """A whole day of business as ISO text; two figures of a year are of this century.

    Raises InputError for anything else.
    """
    try:
        when = date_of_words(text, "20")
        if not when.exact:
            raise InputError(text)
    except InputError:
        raise InputError(
            f"{text!r} is not {wanted}; write it like 1 may 2026, 1.5.26 or 2026-05-01."
        ) from None
    return when.earliest.isoformat()


def _iso(parts: dict[str, str | None], century: str) -> str:
    year, month, day = parts["year"] or "", parts["month"] or "", parts.get("day")
    number = int(month) if month.isdigit() else MONTH_NUMBERS[month[:3]]
    whole = year if len(year) == 4 else century + year
    return f"{whole}-{number:02}" + (f"-{int(day):02}" if day else "")
