"""The money facts: whole, sourced, dated; a wrong data file is named with its record and field."""

from collections.abc import Callable
from pathlib import Path

import pytest

from counter.reference import money
from counter.reference.loader import DATA, DataFault, Tables, read_folder
from counter.reference.money import MoneyFacts, read_money_facts
from counter.values.errors import UserError


def test_every_fact_is_carried(facts: MoneyFacts) -> None:
    counts = {
        "rates": 7,
        "rules": 66,
        "conventions": 11,
        "book_fields": 21,
        "retention": 8,
        "invoice_fields": 35,
        "declarations": 7,
        "thresholds": 34,
        "examples": 39,
        "currencies": 8,
        "cash_examples": 6,
        "pricing": 42,
        "habits": 27,
        "methods": 25,
        "sources": 106,
    }
    assert {name: len(getattr(facts, name)) for name in counts} == counts


def test_iso_4217_codes_and_minor_units(facts: MoneyFacts) -> None:
    # ISO 4217 (list one): numeric code and minor units.
    listed = {
        "GBP": ("826", 2),
        "EUR": ("978", 2),
        "USD": ("840", 2),
        "CHF": ("756", 2),
        "JPY": ("392", 0),
        "AUD": ("036", 2),
        "CAD": ("124", 2),
        "SEK": ("752", 2),
    }
    assert {code: (each.numeric, each.decimals) for code, each in facts.currencies.items()} == listed


@pytest.mark.parametrize(
    ("kind", "day", "amount"),
    [
        ("vat-registration", "2014-03-31", 7900000),
        ("vat-registration", "2014-04-01", 8100000),
        ("vat-registration", "2024-03-31", 8500000),
        ("vat-registration", "2026-05-01", 9000000),
        ("high-value-dealer", "2026-06-30", 1000000),
        ("mtd-income-tax", "2027-04-06", 3000000),
    ],
)
def test_the_limit_is_that_of_the_day(facts: MoneyFacts, kind: str, day: str, amount: int) -> None:
    held = facts.threshold_on(kind, day)
    assert held is not None and held.amount == amount


def test_a_limit_not_held_for_a_day_is_not_known(facts: MoneyFacts) -> None:
    assert facts.threshold_on("vat-registration", "2009-01-01") is None
    assert facts.threshold_on("high-value-dealer", "2026-06-29").currency == "EUR"  # type: ignore[union-attr]


def test_there_is_no_rate_before_vat(facts: MoneyFacts) -> None:
    assert facts.rate_on("1973-04-01").rate_percent == 10
    with pytest.raises(UserError, match="1973-04-01"):
        facts.rate_on("1973-03-31")


def spoil(tables: Tables, file: str, key: str, place: int, field: str, value: object) -> Tables:
    tables[file][key][place][field] = value
    return tables


@pytest.mark.parametrize(
    ("file", "key", "field", "value", "says"),
    [
        ("vat", "rule", "source", "hearsay", "no source 'hearsay'"),
        ("vat", "rate", "fraction", "1/5", "is not rate"),
        ("vat", "rate", "until", "1990-01-01", "does not follow"),
        ("examples", "example", "rule", "none", "there is no rule"),
        (
            "thresholds",
            "threshold",
            "amount",
            "90000",
            "thresholds.toml [[threshold]] vat-registration.amount",
        ),
        ("pricing", "practice", "colour", "red", "unknown field colour"),
        ("schedule", "factor", "what", "smell", "schedule.toml [[factor]] margin-large.what"),
    ],
)
def test_a_wrong_file_is_named(
    monkeypatch: pytest.MonkeyPatch, file: str, key: str, field: str, value: object, says: str
) -> None:
    read: Callable[[str, Path], Tables] = read_folder
    monkeypatch.setattr(
        money, "read_folder", lambda subject: spoil(read(subject, DATA), file, key, 0, field, value)
    )
    with pytest.raises(DataFault) as fault:
        read_money_facts()
    assert says in str(fault.value)
