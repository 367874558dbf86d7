"""Weaken a solution: what to add to what, to reach what. Units are read and turned by pint."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from counter.values.errors import InputError, UserError
from counter.values.strength import Scale, StrengthReading
from counter.values.strength_words import Label, read_label

_PORTION = re.compile(
    r"^\s*(?P<amount>[\d.,]{1,12})\s*(?P<unit>[a-zA-Z. ]{1,20}?)\s+(?:of\s+|(?=[0-9]))(?P<rest>.+)$"
)
_EXAMPLE = "write it like 50 mL of 9 % w/v"
#: British names that pint knows as American measures, or not at all.
_UNITS = {
    "fl oz": "imperial_fluid_ounce",
    "fluid ounce": "imperial_fluid_ounce",
    "fluid ounces": "imperial_fluid_ounce",
    "pint": "imperial_pint",
    "pints": "imperial_pint",
    "ml": "milliliter",
    "cl": "centiliter",
    "l": "liter",
    "cc": "milliliter",
}


@dataclass(frozen=True, slots=True)
class Portion:
    """A strength and, where it was given, how much of it (mL)."""

    label: Label
    millilitres: float | None = None


@dataclass(frozen=True, slots=True)
class Dilution:
    """Take so much, add so much water, have so much in all (mL); `strength` is what comes of it.

    Volumes are taken to add up, which is out by less than 0.5 % below 12 %.
    """

    take_ml: float
    add_water_ml: float
    total_ml: float
    have: StrengthReading
    want: StrengthReading


def read_portion(text: str) -> Portion:
    """Read "50 mL of 9 % w/v", or a bare strength; raises InputError."""
    match = _PORTION.match(text)
    if not match:
        return Portion(read_label(text))
    return Portion(read_label(match["rest"]), _millilitres(match["amount"], match["unit"]))


def dilute(have: Portion, want: Portion, scale: Scale) -> Dilution:
    """Work out a dilution from what is at hand; one of the two must say how much.

    Both sides are read the same way where both labels allow it; otherwise the strongest reading of
    what is at hand meets the weakest of what is wanted, so that the result is never too strong.
    Raises UserError when the strength at hand is unknown or water cannot make the wanted one.
    """
    if have.label.unknown or want.label.unknown:
        raise UserError(
            "A strength that is not known cannot be diluted to one that is; use a fresh bottle."
        )
    from_reading, to_reading = _same_way(have.label, want.label, scale)
    strong, weak = from_reading.strength.percent_wv, to_reading.strength.percent_wv
    if weak > strong:
        raise UserError(
            f"Water only weakens: {have.label.text} cannot become {want.label.text}. "
            "Use a stronger bottle, or none."
        )
    if have.millilitres is None and want.millilitres is None:
        raise InputError(f"Say how much there is, or how much is wanted: {_EXAMPLE}.")
    if want.millilitres is not None:
        total = want.millilitres
        take = total * weak / strong
        if have.millilitres is not None and take > have.millilitres:
            raise UserError(f"{have.millilitres:g} mL is not enough: that would take {take:.1f} mL.")
    else:
        take = have.millilitres or 0.0
        total = take * strong / weak
    return Dilution(take, total - take, total, from_reading, to_reading)


def _same_way(have: Label, want: Label, scale: Scale) -> tuple[StrengthReading, StrengthReading]:
    strong, weak = have.readings(scale), want.readings(scale)
    pairs = [(one, other) for one in strong for other in weak if one.way == other.way]
    pairs.sort(key=lambda pair: pair[0].way != "w/v")
    return pairs[0] if pairs else (strong[0], weak[-1])


def _millilitres(amount: str, unit: str) -> float:
    try:
        number = float(amount.replace(",", "."))
    except ValueError:
        raise InputError(f"The amount {amount!r} cannot be read; {_EXAMPLE}.") from None
    if not number > 0:
        raise InputError(f"An amount must be more than nothing; {_EXAMPLE}.")
    name = " ".join(unit.replace(".", " ").split())
    known = _UNITS.get(name.casefold(), name)
    import pint  # here, not at the top: it takes longer to load than the first screen

    try:
        return float(_units().Quantity(number, known).to("milliliter").magnitude)
    except (pint.errors.PintError, AttributeError, ValueError, TypeError):
        raise InputError(f"{name!r} is not a measure of volume; {_EXAMPLE}.") from None


@cache
def _units() -> Any:
    import pint

    return pint.UnitRegistry()
