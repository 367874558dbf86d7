"""The house's own settings: the business, limits, rates and factors that the dealer edits.

Each edit is a row of `settings`, noted like everything else; what is not edited is the reference's.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from typing import Any

from counter.reference.money import MoneyFacts
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.money import Foreign
from counter.values.cost_code import read_letters
from counter.values.currency import Currency, read_code, read_rate
from counter.values.days import read_day
from counter.values.errors import InputError, UserError


@dataclass(frozen=True, slots=True)
class Business:
    """Who trades, whether registered for VAT and since when, and the house's habits.

    `registered_from` empty: not registered. `scheme` is what an eligible piece goes under unless
    told otherwise. `warn_cash_pence` warns well below the law's limit on cash. `profit_percent` of the
    resale is wanted when buying; `floor_percent` of the cost is the least profit when selling.
    `cost_code` is ten letters for 1 to 9 and 0, by which a label says a cost to no one else.
    """

    name: str = ""
    address: str = ""
    vat_number: str = ""
    registered_from: str = ""
    registered_until: str = ""
    scheme: str = "margin"
    period_months: int = 3
    global_since: str = ""
    opening_stock_pence: int = 0
    warn_cash_pence: int = 5_000_00
    profit_percent: int = 30
    floor_percent: int = 10
    half_life_months: int = 36
    quote_days: int = 14
    terms: str = ""
    cost_code: str = ""

    def registered(self, day: str) -> bool:
        """Whether VAT is accounted for on a day."""
        begun = bool(self.registered_from) and self.registered_from <= day
        return begun and (not self.registered_until or day <= self.registered_until)


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


@dataclass(frozen=True, slots=True)
class Rate:
    """A VAT rate as it holds on a day."""

    percent: Decimal
    part: Fraction
    source: str


class House:
    """The settings of a ledger over the money facts."""

    def __init__(self, ledger: Ledger, facts: MoneyFacts) -> None:
        self.ledger = ledger
        self.facts = facts

    @property
    def business(self) -> Business:
        """The business as last noted."""
        row = self._setting("business")
        known = {each.name for each in fields(Business)}
        return Business(**{name: value for name, value in row.items() if name in known})

    def change_business(self, **changes: Any) -> Business:
        """Note changed details of the business. Raises UserError naming what is wrong."""
        row = asdict(self.business) | changes
        for name, default in asdict(Business()).items():
            if type(row[name]) is not type(default) or (isinstance(default, int) and row[name] < 0):
                raise UserError(f"The business's {name.replace('_', ' ')} cannot be {row[name]!r}.")
        if row["scheme"] not in ("margin", "global", "ordinary"):
            raise UserError(f"{row['scheme']!r} is not a scheme; use margin, global or ordinary.")
        row["cost_code"] = read_letters(row["cost_code"])
        for name in ("registered_from", "registered_until", "global_since"):
            if row[name]:
                read_day(row[name])
        if not 1 <= row["period_months"] <= 12 or not row["half_life_months"]:
            raise UserError("A VAT period is 1 to 12 months, and the half-life at least one month.")
        self._keep("business", row, "business details changed")
        return self.business

    def limit(self, kind: str, day: str) -> Limit | None:
        """A limit on a day: the dealer's own edit where it is newer, else the reference's."""
        held = self.facts.threshold_on(kind, day)
        own = self._setting("limits").get(kind)
        if own and own["since"] <= day and (held is None or own["since"] >= held.since):
            test = held.test if held else "over"
            return Limit(kind, own["amount"], "GBP", test, own["since"], "own edit")
        if held is None or held.amount is None:
            return None
        return Limit(kind, held.amount, held.currency, held.test, held.since, held.source, held.note)

    def set_limit(self, kind: str, pence: int, since: str) -> None:
        """Note the dealer's own figure for a limit from a day on."""
        known = {each.kind for each in self.facts.thresholds.values() if each.amount is not None}
        if kind not in known:
            raise UserError(f"There is no limit {kind!r}; there are {', '.join(sorted(known))}.")
        if pence < 0:
            raise InputError("A limit cannot be negative.")
        own = {**self._setting("limits"), kind: {"amount": pence, "since": read_day(since)}}
        self._keep("limits", own, "limit changed")

    def vat_rate(self, day: str) -> Rate:
        """The standard rate on a date of supply; a rate noted by the dealer wins from its day on."""
        own = [each for each in self._setting("vat_rates").get("rates", ()) if each["since"] <= day]
        held = self.facts.rate_on(day)
        latest = max(own, key=lambda each: str(each["since"]), default=None)
        if latest and latest["since"] >= held.since:
            percent = Decimal(latest["percent"])
            return Rate(percent, Fraction(percent) / (100 + Fraction(percent)), "own edit")
        return Rate(held.rate_percent, held.part, held.source)

    def set_vat_rate(self, percent: str, since: str) -> None:
        """Note a new standard rate from a day on: rates change, and the reference has its date."""
        rate = _decimal(percent, "a rate of VAT", Decimal(0), Decimal(100))
        rates = [
            each
            for each in self._setting("vat_rates").get("rates", ())
            if each["since"] != read_day(since)
        ]
        row = {"rates": [*rates, {"since": read_day(since), "percent": str(rate)}]}
        self._keep("vat_rates", row, "VAT rate noted")

    def own_factors(self) -> dict[str, Decimal]:
        """The dealer's edits of the house schedule, by factor id."""
        return {name: Decimal(value) for name, value in self._setting("schedule").items()}

    def set_factor(self, factor: str, value: str) -> None:
        """Note the dealer's own factor for a line of the house schedule; "" takes the edit out."""
        if factor not in self.facts.schedule:
            raise UserError(f"The house schedule has no line {factor!r}.")
        own = dict(self._setting("schedule"))
        own.pop(factor, None)
        if value.strip():
            own[factor] = str(_decimal(value, "a factor", Decimal(0), Decimal(100)))
        self._keep("schedule", own, "house schedule changed")

    def set_exchange(self, code: str, rate: str, day: str, source: str = "own rate") -> None:
        """Note the dealer's rate of a currency from a day on, units to one pound."""
        currency = self._foreign_currency(code)
        if not source.strip():
            raise UserError("Say where the rate is from; the book must name it.")
        noted = {"date": read_day(day), "rate": str(read_rate(rate)), "source": source}
        kept = self._setting("exchange")
        rates = [each for each in kept.get(currency.code, ()) if each["date"] != noted["date"]]
        self._keep("exchange", {**kept, currency.code: [*rates, noted]}, "exchange rate noted")

    def exchange(self, code: str, day: str) -> tuple[Currency, Decimal, Mapping[str, str]]:
        """A currency and the dealer's latest rate for it on a day. Raises UserError without one."""
        currency = self._foreign_currency(code)
        noted = self._setting("exchange").get(currency.code, ())
        rates = [each for each in noted if each["date"] <= day]
        if not rates:
            raise UserError(f"No rate of yours is noted for {currency.code} by {day}; note one first.")
        latest = max(rates, key=lambda each: str(each["date"]))
        return currency, Decimal(latest["rate"]), latest

    def foreign(self, code: str, amount: int, day: str) -> Foreign:
        """A foreign sum with the rate it is turned into sterling by, for the book."""
        currency, rate, noted = self.exchange(code, day)
        return Foreign(currency.code, amount, str(rate), noted["date"], noted["source"])

    def _foreign_currency(self, code: str) -> Currency:
        currency = read_code(code, self.facts.currencies)
        if currency.code == "GBP":
            raise InputError("Sterling needs no rate.")
        return currency

    def _setting(self, name: str) -> dict[str, Any]:
        return dict(self.ledger.row("settings", name) or {})

    def _keep(self, name: str, row: Mapping[str, Any], verb: str) -> None:
        self.ledger.note(verb, [Change("settings", name, row)])


def _decimal(text: str, what: str, low: Decimal, high: Decimal) -> Decimal:
    try:
        value = Decimal(text.strip())
        if value.is_finite() and low <= value <= high and "e" not in text.lower():
            return value
    except InvalidOperation:
        pass
    raise InputError(f"{text} is not {what}; write a number from {low} to {high}.")
