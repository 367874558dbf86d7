"""A length of time as typed: "30", "90 s", "10 min", "2 h"."""

from __future__ import annotations

import re

from counter.values.errors import InputError

_TIME = re.compile(r"^(\d{1,6}(?:\.\d)?)\s*(s|sec|secs|seconds?|m|min|mins|minutes?|h|hours?)?$")


def read_seconds(text: str) -> int:
    """Whole seconds of a time as typed; a bare number is seconds. Raises InputError."""
    match = _TIME.match(text.strip().casefold())
    if not match or float(match[1]) <= 0:
        raise InputError(f"The time {text!r} cannot be read; write it like 30, 90 s or 10 min.")
    unit = (match[2] or "s")[0]
    return round(float(match[1]) * {"s": 1, "m": 60, "h": 3600}[unit])


def seconds_words(seconds: int) -> str:
    """A length of time as a person says it: 60 s, 15 minutes, 1½ hours, 24 hours."""
    if seconds < 120:
        return f"{seconds} s"
    for size, name in ((3600, "hour"), (60, "minute")):
        count, rest = divmod(seconds, size)
        if count and rest in (0, size // 2):
            half = "½" if rest else ""
            return f"{count}{half} {name}{'s' if count > 1 or half else ''}"
    return f"{seconds // 60} minutes {seconds % 60} s"
