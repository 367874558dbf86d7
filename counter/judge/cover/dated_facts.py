"""A dated fact of the reference with what says so, and how such dates are written."""

from __future__ import annotations

import re
from dataclasses import dataclass

from counter.values.dates import When, read_date

_LEADING = re.compile(r"\d{4}(?:-\d{2}(?:-\d{2})?)?")


@dataclass(frozen=True, slots=True)
class DatedFact:
    """A day or period and what says so; `memory` when it rests on recollection alone."""

    when: When
    source: str
    confidence: str
    memory: bool = False


def written_day(text: str, source: str, confidence: str) -> DatedFact | None:
    """A date that begins with ISO and may be followed by a remark: "1840-07-27 (memory)"."""
    found = _LEADING.match(text)
    if not found:
        return None
    memory = source == "memory" or "memory" in text
    return DatedFact(read_date(found[0]), "memory" if memory else source, confidence, memory)
