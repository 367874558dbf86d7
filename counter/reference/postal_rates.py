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
    """Why a figure of such a source is not established: "no source that was read"; "" when it is."""
    if source == "memory":
        return "no source that was read"
    return "a single source of low confidence" if confidence == "low" else ""


@dataclass(frozen=True, slots=True)
class Rate:
    """What a service cost in a period; without `flat`, `steps`, `sheet` and `miles` it is a known gap.

    Beyond `confirmed_upto` (in `unit`) the figure is not established, nor where it is `unproved`;
    beyond `max_weight` the item could not go. `unpaid_times` multiplies the prepaid rate.

    `route` is empty inland; "way" holds for its `places` (ids) alone, by the way that `way` says and
    `via` lists the words for. With `under` a step ends just below its weight. `sheet` is the price of
    each sheet (to three, an ounce as four), with `inland_beside` on top of the inland postage. A `part`
    is not the whole charge. Outside `sure_from` to `sure_upto` the source tells the year alone, so the
    figure is not established; `never_against`: its days or its reach are rough, so it may explain a
    franking and never speaks against one. `date_note` says how the days are known.
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
    sheet: Decimal | None = None
    inland_beside: bool = False
    under: bool = False
    part: str = ""
    places: tuple[str, ...] = ()
    via: tuple[str, ...] = ()
    way: str = ""
    sure_from: str = ""
    sure_upto: str = ""
    never_against: bool = False
    date_note: str = ""
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
        return self.flat is None and self.sheet is None and not self.steps and not self.miles

    @property
    def by_sheets(self) -> bool:
        """Whether sheets of paper, not weight alone, made the price."""
        return bool(self.miles) or self.sheet is not None

    def sure_on(self, iso: str) -> bool:
        """Whether the source dates the figure closely enough for that day."""
        return (self.sure_from or iso) <= iso <= (self.sure_upto or iso)


@dataclass(frozen=True, slots=True)
class Hours:
    """A late fee by the hour of handing in ("18:00" to "19:00")."""

    after: str
    upto: str
    price: Decimal


@dataclass(frozen=True, slots=True)
class Fee:
    """A fee on top of the postage; without `flat` or `first_mile` its figure is not established.

    With `first_mile` it went by the miles: so much for the first, `further_mile` for every other one
    begun. Before `stamps_from` it could be paid in cash, so stamps on the cover need not show it.
    """

    id: str
    service: str
    first: str
    last: str
    money: Money
    confidence: str
    source: str
    flat: Decimal | None = None
    hours: tuple[Hours, ...] = ()
    first_mile: Decimal | None = None
    further_mile: Decimal | None = None
    stamps_from: str = ""
    sure_from: str = ""
    sure_upto: str = ""
    basis: str = ""
    conditions: str = ""
    also_source: str = ""
    date_source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class ChargeRule:
    """What the addressee paid, or what counted as paid, in a period.

    `amount` (old pence) is a charge of its own on an item of `service` that bore nothing.
    """

    id: str
    first: str
    last: str
    rule: str
    confidence: str
    source: str
    signs: tuple[str, ...] = ()
    service: str = ""
    amount: Decimal | None = None
    example: str = ""
    also_source: str = ""
    date_source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class PostalRule:
    """A rule, fee, charge, privilege or mark as a book tells it, and the records it stands `about`.

    `action` says what it does to them: "add" stands by itself, "source" supports, "change" corrected
    them, "dispute" leaves two figures beside each other. `first` and `last` are whole or partial days.
    """

    id: str
    what: str
    rule: str
    confidence: str
    source: str
    action: Literal["add", "source", "change", "dispute"] = "add"
    about: tuple[str, ...] = ()
    first: str = ""
    last: str = ""
    also_source: str = ""
    note: str = ""
