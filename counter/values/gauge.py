"""Perforation gauge: holes (or teeth) in two centimetres, with the error of counting and reading.

The plus or minus is worked as the Guide to the Expression of Uncertainty in Measurement (JCGM
100:2008) has it: each source of error is taken as even between two limits, so its standard
uncertainty is the limit divided by the root of 3; they add in squares; the whole is doubled, which
covers about 95 in 100 readings.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from counter.values.errors import InputError

#: The length the gauge counts over, in millimetres.
GAUGE_LENGTH_MM = 20.0
#: Limits of error, from the bench ("common practice"): ends of the count placed to a quarter of a hole
#: either way, length read on a half-millimetre scale to a quarter of a millimetre either way.
COUNT_ERROR = 0.25
LENGTH_ERROR_MM = 0.25

_LENGTH = re.compile(
    r"\s*(?P<whole>[0-9]{1,9}(?:[.,][0-9]{1,9})?(?![0-9]*/))?\s?(?P<part>[0-9]/[1-9][0-9]?|½|¼|¾)?"
    r"\s*(?P<unit>[^\d\s/].*?)?\s*"
)
_PARTS = {"½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4)}
_SIGNS = {'"': "inch", "″": "inch", "”": "inch", "in.": "inch", "ins": "inch", "mms": "mm", "cms": "cm"}


@dataclass(frozen=True, slots=True)
class Measured:
    """A gauge as measured: `value` and `plus_minus` in holes per 2 cm; what it was worked from."""

    value: float
    plus_minus: float
    holes: float
    length_mm: float

    @property
    def how(self) -> str:
        """How the plus or minus comes about, in words."""
        return (
            f"{self.holes:g} in {self.length_mm:g} mm; plus or minus {self.plus_minus:.2f}: the count "
            f"good to {COUNT_ERROR:g} of a hole, the length to {LENGTH_ERROR_MM:g} mm, both doubled "
            "from one standard uncertainty"
        )


def measure(holes: float, length_mm: float) -> Measured:
    """The gauge of so many holes over a length; raises InputError when the figures make no sense."""
    if not 2 <= holes <= 1000:
        raise InputError(f"{holes:g} holes is no count to gauge by: count from 2 to 1000.")
    if not 2 <= length_mm <= 1000:
        raise InputError(f"{length_mm:g} mm is no length to gauge over: take 2 mm to 1 metre.")
    value = holes * GAUGE_LENGTH_MM / length_mm
    relative = math.hypot(COUNT_ERROR / holes, LENGTH_ERROR_MM / length_mm) / math.sqrt(3)
    return Measured(value, 2 * value * relative, holes, length_mm)


def read_length(text: str) -> float:
    """A length in any unit as millimetres: "25 mm", "1 inch", "2,5 cm", "1 1/2 in"; mm if none.

    Raises InputError when it is no length.
    """
    found = _LENGTH.fullmatch(text)
    if not found or not (found["whole"] or found["part"]):
        raise InputError(f"{text!r} is not a length: write it like 25 mm or 1 inch.")
    amount = Fraction((found["whole"] or "0").replace(",", "."))
    part = found["part"]
    if part:
        amount += _PARTS[part] if part in _PARTS else Fraction(part)
    unit = (found["unit"] or "mm").strip()
    return float(amount) * _millimetres(_SIGNS.get(unit.lower(), unit))


@lru_cache(maxsize=1)
def _units() -> Any:
    import pint  # slow to load, and only a measured length needs it

    return pint.UnitRegistry()


@lru_cache(maxsize=64)
def _millimetres(unit: str) -> float:
    """How many millimetres a unit is; raises InputError for what is no unit of length."""
    registry = _units()
    for name in (unit, unit.lower()):
        try:
            return float(registry.Quantity(1, name).to("mm").magnitude)
        except Exception:  # pint raises many kinds on words it cannot read
            continue
    raise InputError(f"{unit!r} is not a unit of length: write it like 25 mm or 1 inch.")


def read_gauge(text: str) -> tuple[float, float]:
    """Across and down of a gauge as the reference writes it: "15½x15" is 15.5, 15.0; "14" both."""
    across, _, down = text.partition("x")
    return _side(across), _side(down or across)


def _side(text: str) -> float:
    figures = text.strip().rstrip("½¼¾")
    part = text.strip()[len(figures) :]
    return float(figures or 0) + float(_PARTS.get(part, 0))
