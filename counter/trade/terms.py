"""The terms of a day: what holds on it, worked out once and handed to everything a verb asks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from counter.store.records.money import Foreign
from counter.store.records.shop import Business, OwnExchange
from counter.values.currency import Currency, read_code
from counter.values.errors import InputError, UserError
from counter.values.money import pounds
from counter.values.vat import NO_VAT


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit as it holds on a day, in minor units, with its date and where it is from."""

    kind: str
    amount: int
    currency: str
    test: str
    since: str
    source: str
    note: str = ""

    def reached(self, amount: int) -> bool:
        """Whether an amount comes up to the limit in the way the limit is worded."""
        return amount >= self.amount if self.test == "at or over" else amount > self.amount

    @property
    def words(self) -> str:
        """The amount in its currency."""
        if self.currency == "GBP":
            return pounds(self.amount)
        return f"{self.amount // 100:,} {self.currency}"


@dataclass(frozen=True, slots=True)
class VatRate:
    """A VAT rate as it holds on a day."""

    percent: Decimal
    part: Fraction
    source: str


@dataclass(frozen=True, slots=True)
class Terms:
    """What holds on `day`: the business, the VAT rate, limits by kind, the house schedule's factors by
    line (the dealer's own edits alone), the dealer's latest exchange rates by currency.
    """

    day: str
    business: Business
    vat: VatRate
    limits: Mapping[str, Limit]
    factors: Mapping[str, Decimal]
    exchange: Mapping[str, OwnExchange]
    currencies: Mapping[str, Currency]

    @property
    def registered(self) -> bool:
        """Whether VAT is accounted for."""
        return self.business.registered(self.day)

    @property
    def vat_part(self) -> Fraction:
        """The fraction of a gross price that is VAT; nought while not registered."""
        return self.vat.part if self.registered else NO_VAT

    def rate(self, code: str) -> tuple[Currency, Decimal, OwnExchange]:
        """A currency and the dealer's rate for it. Raises UserError when none is noted by that day."""
        currency = foreign_currency(code, self.currencies)
        noted = self.exchange.get(currency.code)
        if noted is None:
            raise UserError(
                f"No rate of yours is noted for {currency.code} by {self.day}; note one first."
            )
        return currency, Decimal(noted.rate), noted

    def foreign(self, code: str, amount: int) -> Foreign:
        """A foreign sum with the rate it is turned into sterling by, for the book."""
        currency, rate, noted = self.rate(code)
        return Foreign(currency.code, amount, str(rate), noted.date, noted.source)


#: A rate older than this is said to be old: HMRC's period rates hold for a month.
_RATE_DAYS = 31


def rate_words(foreign: Foreign | None, day: str) -> str:
    """What is to be told of an old rate; "" for one of these days (rule "foreign-currency")."""
    if foreign is None or not foreign.rate_date:
        return ""
    age = (date.fromisoformat(day) - date.fromisoformat(foreign.rate_date)).days
    if age <= _RATE_DAYS:
        return ""
    return (
        f"The rate of {foreign.rate} {foreign.currency} ({foreign.rate_source}) is {age:,} days old; for VAT "
        f"it is that of the day of supply, or HMRC's for the period: note one, and its source."
    )


def foreign_currency(code: str, currencies: Mapping[str, Currency]) -> Currency:
    """A currency that is not sterling. Raises InputError."""
    currency = read_code(code, currencies)
    if currency.code == "GBP":
        raise InputError("Sterling needs no rate.")
    return currency
