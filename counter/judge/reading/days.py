"""Dates as they are typed: 12 may 1840, may 1840, 1841, 12.5.40, 1840-05-12."""

from __future__ import annotations

import re
from datetime import date

from counter.judge.reading.piece import DIGITS, UNREAD, Piece, one, rule
from counter.reference.vocabulary import Vocabulary
from counter.values.date_words import MONTH_NUMBERS, MONTH_SPELLINGS
from counter.values.dates import MONTHS

#: A date whose year has two figures: the context tells the century.
SHORT_DATE = "short date"

_MONTH = rf"(?P<month>{MONTH_SPELLINGS})"
#: Months as cut in date stamps; read only with a day and a year beside them.
_DATERS = {
    "ja": 1, "fe": 2, "mr": 3, "ap": 4, "my": 5, "jn": 6, "ju": 6, "jl": 7, "jy": 7, "jly": 7, "au": 8,
    "se": 9, "sp": 9, "oc": 10, "no": 11, "nv": 11, "de": 12, "dc": 12,
}  # fmt: skip
_CUT = _MONTH[:-1] + "|" + "|".join(_DATERS) + ")"
_CUES = " ".join((*_DATERS, *MONTH_NUMBERS, *map(str.lower, MONTHS), "feby aprl sept octr novr decr"))
_DAY = r"(?P<day>[0-9]{1,2})"
_YEAR = r"(?P<year>1[6-9][0-9]{2})"
_GAP = r"[\s\-./,]*"
_NTH = r"(?:st|nd|rd|th)?(?:\s+of)?"
_ANY_YEAR = r"(?P<year>1[6-9][0-9]{2}|[0-9]{2})"
#: A year as a date stamp has it behind month and day: "MY 6 40".
_STRUCK_YEAR = r"'?(?P<year>1[6-9][0-9]{2}|[4-9][0-9])"
_BOUND = r"(?:before|after|pre|since|until|till)"

#: A day with its month and year: its figure is no number of a cancel ("numeral 1 june 1850").
A_DAY = (
    rf"(?:0?[1-9]|[12][0-9]|3[01])(?:st|nd|rd|th)?\s(?:{MONTH_SPELLINGS})\.?\s"
    r"(?:1[6-9][0-9]{2}|'?[0-9]{2})(?![^\W_])"
)


def iso_words(iso: str) -> str:
    """An ISO date the reader made, in words: 12 May 1840, May 1840, 1841."""
    year, _, rest = iso.partition("-")
    month, _, day = rest.partition("-")
    named = [str(int(day))] if day else []
    return " ".join([*named, *([MONTHS[int(month) - 1]] if month else []), year])


def _read(found: re.Match[str], _: Vocabulary) -> list[Piece] | None:
    parts = found.groupdict()
    month_text, year, day = parts.get("month") or "", parts["year"], parts.get("day") or ""
    month = _month(month_text) if month_text.isalpha() else int(month_text or 0)
    if len(year) == 2 and month_text == "no":
        return None  # "2 no 46" is two stamps with a numeral, not a day in November
    if len(year) == 2:
        iso = f"18{year}-{month:02}" + (f"-{int(day):02}" if day else "")
        return one(found, SHORT_DATE if _exists(iso) else UNREAD, iso, iso)
    iso = year + (f"-{month:02}" if month else "") + (f"-{int(day):02}" if day else "")
    return one(found, "date" if _exists(iso) else UNREAD, iso, iso_words(iso) if _exists(iso) else "")


def _month(text: str) -> int:
    return MONTH_NUMBERS.get(text[:3]) or _DATERS.get(text, 0)


def _exists(iso: str) -> bool:
    try:
        date.fromisoformat(iso + "-01-01"[len(iso) - 4 :] if len(iso) < 10 else iso)
    except ValueError:
        return False
    return True


def _unread(found: re.Match[str], _: Vocabulary) -> list[Piece]:
    return one(found, UNREAD, "", "")


RULES = (
    rule(DIGITS, rf"{_DAY}{_NTH}{_GAP}{_CUT}\.?{_GAP}'?{_ANY_YEAR}", _read, "whole date"),
    rule(DIGITS, rf"{_DAY}{_NTH}[\s\-]*{_MONTH}", _unread),
    rule(_CUES, rf"{_CUT}\.?\s*{_DAY}(?:st|nd|rd|th)?[\s,]+{_STRUCK_YEAR}", _read),
    rule(_CUES, rf"{_MONTH}\.?{_GAP}{_YEAR}", _read),
    rule(_CUES, rf"{_MONTH}\.?\s'?(?P<year>3[2-9]|[4-9][0-9])", _read),  # feb 41: no month has 41 days
    rule(DIGITS, r"(?P<year>1[6-9][0-9]{2})-(?P<month>[0-9]{2})(?:-(?P<day>[0-9]{2}))?", _read),
    rule(DIGITS, rf"{_YEAR}[\s,]+{_MONTH}\.?(?:[\s,]+{_DAY}(?:st|nd|rd|th)?(?!\s?[/sdp½]))?", _read),
    rule(DIGITS, rf"{_YEAR}[\s,]+{_DAY}(?:st|nd|rd|th)?(?:\s+of)?\s+{_MONTH}", _read),
    rule(DIGITS, rf"{_DAY}[./-](?P<month>[0-9]{{1,2}})[./-]{_ANY_YEAR}", _read),
    rule("c ca circa about abt", rf"(?:c\.|c\s|ca\.?|circa|about|abt)\s?{_YEAR}", _read),
    rule(
        "before after pre since until till",
        rf"{_BOUND}[\s\-]+1[6-9][0-9]{{2}}",
        _unread,
    ),
    rule(DIGITS, _YEAR, _read),
)
