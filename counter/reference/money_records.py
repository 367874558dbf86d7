"""The shapes of the money facts: one frozen record for each kind of fact in data/money/."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal


@dataclass(frozen=True, slots=True)
class VatRateFact:
    """A standard rate of VAT and the dates of supply it holds for; `until` is "" while it lasts."""

    id: str
    since: str
    rate_percent: Decimal
    fraction: str
    source: str
    until: str = ""
    also: tuple[str, ...] = ()

    @property
    def part(self) -> Fraction:
        """The part of a VAT-inclusive amount that is VAT."""
        return Fraction(self.fraction)


@dataclass(frozen=True, slots=True)
class VatRule:
    """A rule of the VAT law or guidance, in our own words."""

    id: str
    topic: str
    text: str
    status: Literal["law", "guidance", "practice", "convention"]
    source: str
    confidence: Literal["high", "medium", "low"]
    formula: str = ""
    also: tuple[str, ...] = ()
    note: str = ""
    uncertain: bool = False


@dataclass(frozen=True, slots=True)
class Convention:
    """How a sum is done where authority leaves it open, fixed so that it can be done again."""

    id: str
    text: str
    source: str
    basis: str = ""


@dataclass(frozen=True, slots=True)
class BookField:
    """A field of the stock book; `required` is "law" or "advised"."""

    id: str
    side: Literal["purchase", "sale", "both", "global"]
    label: str
    required: Literal["law", "advised"]
    source: str
    text: str = ""
    also: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Retention:
    """How long a kind of record is kept."""

    id: str
    record: str
    period: str
    source: str
    also: tuple[str, ...] = ()
    note: str = ""
    uncertain: bool = False


@dataclass(frozen=True, slots=True)
class InvoiceField:
    """Something a paper must show, may show, or (document "must-not") must never show."""

    id: str
    document: Literal["purchase-private", "purchase-dealer", "sale-margin", "sale-global", "must-not"]
    required: bool
    source: str
    text: str = ""
    also: tuple[str, ...] = ()
    note: str = ""
    uncertain: bool = False

    @property
    def field(self) -> str:
        """The field's name without the document's."""
        return self.id.partition(".")[2]


@dataclass(frozen=True, slots=True)
class Declaration:
    """A wording that the law fixes, quoted, and what it is used for."""

    id: str
    wording: str
    use: str
    source: str
    also: tuple[str, ...] = ()
    note: str = ""
    uncertain: bool = False


@dataclass(frozen=True, slots=True)
class Threshold:
    """A limit with the dates it holds for; `amount` in minor units. Always to be checked anew."""

    id: str
    kind: str
    name: str
    test: Literal[
        "over", "not over", "at or over", "under", "always", "days", "fee", "excluded", "any value"
    ]
    source: str
    amount: int | None = None
    currency: str = ""
    days: int | None = None
    years: int | None = None
    since: str = ""
    until: str = ""
    also: tuple[str, ...] = ()
    confidence: str = ""
    warn_early: bool = False
    note: str = ""
    uncertain: bool = False


@dataclass(frozen=True, slots=True)
class Example:
    """A published worked example; figures are printed text in major units."""

    id: str
    title: str
    publisher_kind: str
    source: str
    rule: str
    rounding: str
    output_printed: bool
    inputs: dict[str, Any]
    outputs: dict[str, Any]
    currency: str = ""
    fraction: str = ""
    do_not_imitate: bool = False
    currency_note: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class CashExample:
    """A printed cash rounding: minor units before and after, and the step where it is not today's."""

    id: str
    currency: str
    amount: int
    cash: int
    source: str
    step: int | None = None


@dataclass(frozen=True, slots=True)
class PricingPractice:
    """A habit of pricing with its band; the dealer overwrites it with his own."""

    id: str
    topic: str
    text: str
    source: str
    low: Decimal | None = None
    high: Decimal | None = None
    unit: str = ""
    also: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class RecordPractice:
    """Something written down (or not) when buying, selling, or keeping people's details."""

    id: str
    side: Literal["buying", "selling", "privacy"]
    must: Literal["law", "condition", "habit"]
    text: str
    source: str
    also: tuple[str, ...] = ()
    note: str = ""
    uncertain: bool = False


@dataclass(frozen=True, slots=True)
class Method:
    """A published statistic for comparables with its own worked numbers."""

    id: str
    name: str
    formula: str
    use: str
    source: str
    data_source: str
    example_in: dict[str, Any]
    example_out: dict[str, Any]
    also: tuple[str, ...] = ()
    places: int | None = None
    working: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Factor:
    """One line of the house schedule: what a condition does to the price of a sound example.

    `terms` are the ids it goes by (several: all of them together); `factor` is where the schedule
    starts, within the trade's band from `low` to `high`.
    """

    id: str
    what: Literal["margin", "fault", "condition", "repair", "multiple", "attachment", "gum", "floor"]
    terms: tuple[str, ...]
    factor: Decimal
    low: Decimal
    high: Decimal
    source: str
    note: str = ""
