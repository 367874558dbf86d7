"""A count of perforation holes as it is typed, measured and judged."""

from __future__ import annotations

import re
from dataclasses import dataclass

from counter.judge.gauge import GaugeReading, read_gauges
from counter.reference.stamps import Stamps
from counter.values.errors import InputError
from counter.values.gauge import Measured, measure, read_length

_SIDES = re.compile(r"\s*[x×]\s*(?=\d)|\s+(?:by|and)\s+|\s*;\s*")
_COUNT = re.compile(
    r"\s*(?P<count>\d{1,4}(?:[.,]\d{1,2})?)\s*(?P<half>½)?\s*(?:holes?|teeth|perfs?)?\s*"
    r"(?:/|\b(?:over|in|to|per)\b)\s*(?P<length>[\d.,/½¼¾\s]+[a-z.\"″”]{0,12})\s*",
    re.IGNORECASE,
)
_HOW = "count the holes of a side over a length, as 20 over 25 mm"


@dataclass(frozen=True, slots=True)
class Counted:
    """One side counted, or the top and a side."""

    across: Measured
    down: Measured | None
    reading: GaugeReading

    @property
    def gauge(self) -> str:
        """The gauge as an observation writes it: "15.8±0.3", "15x14.1±0.4"; the larger ± of two."""
        sides = [self.across] if self.down is None else [self.across, self.down]
        figures = "x".join(_short(each.value) for each in sides)
        return f"{figures}±{_short(max(0.1, *(each.plus_minus for each in sides)))}"

    @property
    def words(self) -> str:
        """The gauge as the ask line reads it."""
        return f"gauge {self.gauge}"


def read_count(text: str, stamps: Stamps) -> Counted:
    """The gauge of "20 over 25 mm" or, of two sides, "20/25mm x 18/22mm"; raises InputError."""
    sides = [part for part in _SIDES.split(text) if part.strip()]
    if not 1 <= len(sides) <= 2:
        raise InputError(f"One side or two, no more: {_HOW}.")
    measured = [_side(each) for each in sides]
    down = measured[1] if len(measured) == 2 else None
    return Counted(measured[0], down, read_gauges(stamps, measured[0], down))


def _short(figure: float) -> str:
    return f"{figure:.1f}".removesuffix(".0")


def _side(text: str) -> Measured:
    found = _COUNT.fullmatch(text)
    if not found:
        raise InputError(f"{text.strip()[:40]!r} is no count: {_HOW}.")
    holes = float(found["count"].replace(",", ".")) + (0.5 if found["half"] else 0.0)
    return measure(holes, read_length(found["length"]))
