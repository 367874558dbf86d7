"""The settings: the business, limits, rates and factors that the dealer edits.

Each edit is a row of `settings`, noted like everything else; what is not edited is the reference's.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from typing import Any, TypeVar

from msgspec.structs import replace

from counter.reference.money import MoneyFacts
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.shop import Business, OwnExchange, OwnLimit, OwnVatRate
from counter.trade.terms import Limit, Terms, VatRate, foreign_currency
from counter.values.cost_code import read_code_letters
from counter.values.currency import read_rate
from counter.values.days import read_day
from counter.values.errors import InputError, UserError
from counter.values.record import Record, read_record, values_of, write_row

R = TypeVar("R", bound=Record)
_SCHEMES = ("margin", "global", "ordinary")


class Settings:
    """The settings of a ledger over the money facts."""

    def __init__(self, ledger: Ledger, facts: MoneyFacts) -> None:
        self.ledger = ledger
        self.facts = facts

    def on(self, day: str) -> Terms:
        """What holds on a day: worked out once a verb."""
        limits = {each.kind: self._limit(each.kind, day) for each in self.facts.thresholds.values()}
        rates = {
            code: latest
            for code, noted in self._exchange().items()
            if (latest := _latest([each for each in noted if each.date <= day]))
        }
        return Terms(
            day,
            self.business,
            self._vat_rate(day),
            {kind: limit for kind, limit in limits.items() if limit},
            {line: Decimal(factor) for line, factor in self._setting("schedule").items()},
            rates,
            self.facts.currencies,
        )

    @property
    def business(self) -> Business:
        """The business as last noted."""
        return read_record(Business, self._setting("business"))

    def change_business(self, **changes: Any) -> Business:
        """Note changed details of the business. Raises UserError naming what is wrong."""
        wanted = values_of(self.business) | changes
        for name, default in values_of(Business()).items():
            value = wanted[name]
            if type(value) is not type(default) or (isinstance(default, int) and value < 0):
                raise UserError(f"The business's {name.replace('_', ' ')} cannot be {value!r}.")
        business = replace(self.business, **changes)
        business = replace(business, cost_code=read_code_letters(business.cost_code))
        if business.scheme not in _SCHEMES:
            raise UserError(f"{business.scheme!r} is not a scheme; use margin, global or ordinary.")
        for day in (
            business.registered_from,
            business.registered_until,
            business.global_since,
            business.global_until,
            business.import_option_from,
        ):
            if day:
                read_day(day)
        if business.company_year_end:
            read_day(f"2028-{business.company_year_end}", "a year's end like 03-31")
        if business.period_months not in (1, 3, 12) or not business.half_life_months:
            raise UserError("A VAT period is 1, 3 or 12 months, and the half-life at least one month.")
        self._keep("business", write_row(business), "business details changed")
        return self.business

    def _limit(self, kind: str, day: str) -> Limit | None:
        """A limit on a day: the dealer's own edit where it is newer, else the reference's."""
        held = self.facts.threshold_on(kind, day)
        own = self._limits().get(kind)
        if own and own.since <= day and (held is None or own.since >= held.since):
            test = held.test if held else "over"
            return Limit(kind, own.amount, "GBP", test, own.since, "own edit")
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
        own = {**self._limits(), kind: OwnLimit(pence, read_day(since))}
        row = {each: write_row(limit) for each, limit in own.items()}
        self._keep("limits", row, "limit changed")

    def _vat_rate(self, day: str) -> VatRate:
        """The standard rate on a date of supply; a rate noted by the dealer wins from its day on."""
        held = self.facts.rate_on(day)
        own = [each for each in self._own_vat_rates() if each.since <= day]
        latest = max(own, key=lambda each: each.since, default=None)
        if latest and latest.since >= held.since:
            percent = Decimal(latest.percent)
            return VatRate(percent, Fraction(percent) / (100 + Fraction(percent)), "own edit")
        return VatRate(held.rate_percent, held.part, held.source)

    def rate_days(self) -> list[str]:
        """The days on which the standard rate changed, the reference's and the dealer's own."""
        own = [each.since for each in self._own_vat_rates()]
        return sorted({*(each.since for each in self.facts.rates), *own})

    def set_vat_rate(self, percent: str, since: str) -> None:
        """Note a new standard rate from a day on: rates change, and the reference has its date."""
        rate = _decimal(percent, "a rate of VAT", Decimal(0), Decimal(100))
        day = read_day(since)
        kept = [each for each in self._own_vat_rates() if each.since != day]
        rates = [write_row(each) for each in (*kept, OwnVatRate(day, str(rate)))]
        self._keep("vat_rates", {"rates": rates}, "VAT rate noted")

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
        currency = foreign_currency(code, self.facts.currencies)
        if not source.strip():
            raise UserError("Say where the rate is from; the book must name it.")
        noted = OwnExchange(read_day(day), str(read_rate(rate)), source)
        known = self._exchange()
        rates = [each for each in known.get(currency.code, ()) if each.date != noted.date]
        every = {**known, currency.code: [*rates, noted]}
        row = {each: [write_row(one) for one in noted] for each, noted in every.items()}
        self._keep("exchange", row, "exchange rate noted")

    def _limits(self) -> dict[str, OwnLimit]:
        return {kind: read_record(OwnLimit, row) for kind, row in self._setting("limits").items()}

    def _own_vat_rates(self) -> list[OwnVatRate]:
        return _each(OwnVatRate, self._setting("vat_rates").get("rates", ()))

    def _exchange(self) -> dict[str, list[OwnExchange]]:
        return {code: _each(OwnExchange, rows) for code, rows in self._setting("exchange").items()}

    def _setting(self, name: str) -> dict[str, Any]:
        return self.ledger.row("settings", name) or {}

    def _keep(self, name: str, row: Mapping[str, Any], verb: str) -> None:
        self.ledger.note(verb, [Change("settings", name, row)])


def _each(kind: type[R], rows: Any) -> list[R]:
    return [read_record(kind, row) for row in rows]


def _latest(rates: list[OwnExchange]) -> OwnExchange | None:
    return max(rates, key=lambda each: each.date, default=None)


def _decimal(text: str, what: str, low: Decimal, high: Decimal) -> Decimal:
    try:
        value = Decimal(text.strip())
        if value.is_finite() and low <= value <= high and "e" not in text.lower():
            return value
    except InvalidOperation:
        pass
    raise InputError(f"{text} is not {what}; write a number from {low} to {high}.")
