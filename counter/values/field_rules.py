"""What a field of a record may say: a rule gives back what a value should be, or "" when it is right."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from functools import lru_cache
from math import isfinite
from typing import Any

Rule = Callable[[Any], str]

LONG = 20_000
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
MOST_COUNT = 10**9
MOST_PENCE = 10**12  # ten thousand million pounds: a slip of the hand, not a price


def words(value: object) -> str:
    """Free text of any script; empty means not noted."""
    if not isinstance(value, str):
        return "must be text"
    return "" if len(value) <= LONG else f"is too long ({len(value)} characters; at most {LONG})"


def name(value: object) -> str:
    """Text that must say something: keys, ids, names."""
    if not isinstance(value, str) or not value.strip():
        return "must not be empty"
    if len(value) > 200:
        return "is too long (at most 200 characters)"
    return "" if value.isprintable() else "must be a line of plain characters"


def optional_name(value: object) -> str:
    """The key of another row, or empty."""
    return "" if value == "" else name(value)


def pence(value: object) -> str:
    """A sum in whole pence, nothing or more."""
    if type(value) is not int:
        return "must be a whole number of pence"
    if value < 0:
        return "must not be negative"
    return "" if value <= MOST_PENCE else "is more than anybody has"


def signed_pence(value: object) -> str:
    """A sum in whole pence, either way."""
    return pence(abs(value)) if type(value) is int else "must be a whole number of pence"


def count(value: object) -> str:
    """A whole number, nothing or more."""
    return (
        "" if type(value) is int and 0 <= value <= MOST_COUNT else "must be a whole number, 0 or more"
    )


def flag(value: object) -> str:
    """Yes or no."""
    return "" if isinstance(value, bool) else "must be true or false"


def number_rule_words(value: object) -> str:
    """An exact number kept as text: "1.2345", "1/6" or empty."""
    if not isinstance(value, str):
        return "must be a number written as text"
    if value == "" or re.fullmatch(r"[0-9]{1,9}/[1-9][0-9]{0,8}", value):
        return ""
    try:
        return "" if Decimal(value).is_finite() else "must be a number"
    except InvalidOperation:
        return "must be a number"


def day(value: object) -> str:
    """A day, as 2026-05-01."""
    right = isinstance(value, str) and _is_day(value)
    return "" if right else "must be a date like 2026-05-01"


@lru_cache(maxsize=1000)  # the same few days come again and again
def _is_day(text: str) -> bool:
    try:
        return bool(_DAY.fullmatch(text) and date.fromisoformat(text))
    except ValueError:
        return False


def optional_day(value: object) -> str:
    """A day, or empty."""
    return "" if value == "" else day(value)


def moment_rule(value: object) -> str:
    """A date and time (ISO), or empty."""
    if value == "":
        return ""
    try:
        datetime.fromisoformat(value)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return "must be a date and time like 2026-05-01T10:30:00"
    return ""


def among(choices: Collection[str]) -> Rule:
    """One of a few words."""
    allowed = frozenset(choices)
    said = ", ".join(each or '""' for each in choices)
    return lambda value: (
        "" if isinstance(value, str) and value in allowed else f"must be one of: {said}"
    )


def anything_named(row: Mapping[str, Any]) -> str:
    """Fields of any name with anything plain: drafts and settings keep what they need."""
    return "" if plain_rule(row) else "it holds what a journal cannot"


def plain_rule(value: object) -> bool:
    """What JSON can say, and gives back as it was."""
    if isinstance(value, float):
        return isfinite(value)
    if isinstance(value, Mapping):
        return all(type(name) is str and plain_rule(each) for name, each in value.items())
    if isinstance(value, list | tuple):
        return all(map(plain_rule, value))
    if isinstance(value, int):
        return -(2**63) <= value < 2**64
    return value is None or isinstance(value, str)
