"""The money facts: VAT, the stock book, papers, limits, currencies, pricing habits, statistics.

Reference only, never advice: every answer that rests on it says to ask HMRC or an accountant.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any, Protocol

from counter.reference import money_records as records
from counter.reference.loader import DataFault, Tables, build, build_all, read_folder
from counter.reference.sources import Source, check_source, read_sources
from counter.values.currency import Currency
from counter.values.errors import UserError

#: Said beside every tax figure.
DEFER = "Reference only: check with HMRC or an accountant before relying on it."
#: Said beside every export answer.
DEFER_EXPORT = (
    "Rules change: check with HMRC and the Export Licensing Unit before it leaves the country."
)


@dataclass(frozen=True, slots=True)
class MoneyFacts:
    """Every money fact by id, and the few look-ups that need a date."""

    rates: tuple[records.VatRateFact, ...]
    rules: Mapping[str, records.VatRule]
    conventions: Mapping[str, records.Convention]
    book_fields: Mapping[str, records.BookField]
    retention: Mapping[str, records.Retention]
    invoice_fields: Mapping[str, records.InvoiceField]
    declarations: Mapping[str, records.Declaration]
    thresholds: Mapping[str, records.Threshold]
    examples: Mapping[str, records.Example]
    currencies: Mapping[str, Currency]
    cash_examples: Mapping[str, records.CashExample]
    pricing: Mapping[str, records.PricingPractice]
    habits: Mapping[str, records.RecordPractice]
    methods: Mapping[str, records.Method]
    schedule: Mapping[str, records.Factor]
    sources: Mapping[str, Source]

    def rate_on(self, day: str) -> records.VatRateFact:
        """The standard rate on a date of supply (ISO); raises UserError before VAT began."""
        for rate in self.rates:
            if rate.since <= day and (not rate.until or day <= rate.until):
                return rate
        raise UserError(f"No VAT rate is held for {day}; VAT began on {self.rates[0].since}.")

    def threshold_on(self, kind: str, day: str) -> records.Threshold | None:
        """The limit of a kind that held on a date; None when none is held."""
        held = [
            each
            for each in self.thresholds.values()
            if each.kind == kind and each.since <= day and (not each.until or day <= each.until)
        ]
        return max(held, key=lambda each: each.since, default=None)


def read_money_facts() -> MoneyFacts:
    """Read and check data/money/; raises DataFault naming file, record and field."""
    tables = read_folder("money")
    facts = MoneyFacts(
        rates=tuple(build_all(records.VatRateFact, tables, "vat", "rate").values()),
        rules=build_all(records.VatRule, tables, "vat", "rule"),
        conventions=build_all(records.Convention, tables, "vat", "convention"),
        book_fields=build_all(records.BookField, tables, "book", "field"),
        retention=build_all(records.Retention, tables, "book", "retention"),
        invoice_fields=build_all(records.InvoiceField, tables, "invoices", "field"),
        declarations=build_all(records.Declaration, tables, "invoices", "declaration"),
        thresholds=build_all(records.Threshold, tables, "thresholds", "threshold"),
        examples=build_all(records.Example, tables, "examples", "example"),
        currencies=_currencies(tables),
        cash_examples=build_all(records.CashExample, tables, "currencies", "cash_example"),
        pricing=build_all(records.PricingPractice, tables, "pricing", "practice"),
        habits=build_all(records.RecordPractice, tables, "records", "practice"),
        methods=build_all(records.Method, tables, "methods", "method"),
        schedule=build_all(records.Factor, tables, "schedule", "factor"),
        sources=read_sources(tables),
    )
    _check(facts)
    return facts


def _currencies(tables: Tables) -> dict[str, Currency]:
    rows: list[dict[str, Any]] = tables["currencies"]["currency"]
    return {row["code"]: build(Currency, row, f"currencies.toml {row['code']}") for row in rows}


class _Sourced(Protocol):
    @property
    def source(self) -> str: ...


def _check(facts: MoneyFacts) -> None:
    """Every source named is there, every example names a rule, and the rates follow one another."""
    everything: dict[str, Iterable[tuple[str, _Sourced]]] = {
        "vat.toml [[rate]]": [(rate.id, rate) for rate in facts.rates],
        "vat.toml [[rule]]": facts.rules.items(),
        "vat.toml [[convention]]": facts.conventions.items(),
        "book.toml [[field]]": facts.book_fields.items(),
        "book.toml [[retention]]": facts.retention.items(),
        "invoices.toml [[field]]": facts.invoice_fields.items(),
        "invoices.toml [[declaration]]": facts.declarations.items(),
        "thresholds.toml": facts.thresholds.items(),
        "examples.toml": facts.examples.items(),
        "currencies.toml": facts.currencies.items(),
        "pricing.toml": facts.pricing.items(),
        "records.toml": facts.habits.items(),
        "methods.toml": facts.methods.items(),
        "schedule.toml": facts.schedule.items(),
    }
    for file, held in everything.items():
        for name, record in held:
            for source in (record.source, *getattr(record, "also", ())):
                check_source(source, dict(facts.sources), f"{file} {name}")
    known = facts.rules.keys() | facts.conventions.keys() | facts.thresholds.keys()
    for name, example in facts.examples.items():
        if example.rule not in known | facts.retention.keys():
            raise DataFault(f"examples.toml {name}.rule: there is no rule {example.rule!r}")
    _check_rates(facts.rates)


def _check_rates(rates: tuple[records.VatRateFact, ...]) -> None:
    for rate in rates:
        if rate.part != Fraction(rate.rate_percent) / (100 + Fraction(rate.rate_percent)):
            raise DataFault(f"vat.toml [[rate]] {rate.id}.fraction is not rate / (100 + rate)")
    for earlier, later in pairwise(rates):
        if not earlier.until or earlier.until >= later.since:
            raise DataFault(f"vat.toml [[rate]] {later.id}.since does not follow {earlier.id}")
