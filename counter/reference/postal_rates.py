"""Records of postage: rates by weight, by miles or flat, fees on top, and what unpaid mail cost.

Money is exact, in the unit the record names: "d" old pence (240 to the pound) or "p" new pence.
Dates are ISO text, inclusive at both ends.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Money = Literal["d", "p"]
WeightUnit = Literal["oz", "third_oz", "lb", "g"]


@dataclass(frozen=True, slots=True)
class Step:
    """Up to and including this weight (or these miles) it costs this much."""

    upto: Decimal
    price: Decimal


@dataclass(frozen=True, slots=True)
class Over:
    """Above a weight, so much for every ounce counted from the first."""

    above: Decimal
    per_oz: Decimal


def unproved(source: str, confidence: str) -> str:
    """Why a figure of such a source is not established: "memory alone"; "" when it is."""
    if source == "memory":
        return "memory alone"
    return "a single source of low confidence" if confidence == "low" else ""


@dataclass(frozen=True, slots=True)
class Rate:
    """What a service cost in a period; without `flat`, `steps` and `miles` it is a known gap.

    Beyond `confirmed_upto` (in `unit`) the figure is not established, nor where it is `unproved`;
    beyond `max_weight` the item could not go. `route` is empty inland. `unpaid_times` multiplies the
    prepaid rate.
    """

    id: str
    service: str
    first: str
    last: str
    money: Money
    confidence: str
    source: str
    route: str = ""
    to: str = ""
    unit: WeightUnit = "oz"
    flat: Decimal | None = None
    steps: tuple[Step, ...] = ()
    then_every: Decimal | None = None
    then_price: Decimal | None = None
    over: Over | None = None
    miles: tuple[Step, ...] = ()
    over_miles: Decimal | None = None
    basis: str = ""
    extras: tuple[str, ...] = ()
    prepaid: str = ""
    prior_conditions: str = ""
    max_weight: Decimal | None = None
    limit_note: str = ""
    confirmed_upto: Decimal | None = None
    unpaid_times: Decimal | None = None
    unpaid_then_price: Decimal | None = None
    unpaid_steps: tuple[Step, ...] = ()
    unpaid_note: str = ""
    also_source: str = ""
    date_source: str = ""
    note: str = ""

    @property
    def is_gap(self) -> bool:
        """True when the period is known but its figure is not."""
        return self.flat is None and not self.steps and not self.miles


@dataclass(frozen=True, slots=True)
class Hours:
    """A late fee by the hour of handing in ("18:00" to "19:00")."""

    after: str
    upto: str
    price: Decimal


@dataclass(frozen=True, slots=True)
class Fee:
    """A fee on top of the postage; without `flat` its figure is not established."""

    id: str
    service: str
    first: str
    last: str
    money: Money
    confidence: str
    source: str
    flat: Decimal | None = None
    hours: tuple[Hours, ...] = ()
    basis: str = ""
    conditions: str = ""
    also_source: str = ""
    date_source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class ChargeRule:
    """What the addressee paid, or what counted as paid, in a period."""

    id: str
    first: str
    last: str
    rule: str
    confidence: str
    source: str
    signs: tuple[str, ...] = ()
    example: str = ""
    also_source: str = ""
    date_source: str = ""
    note: str = ""
