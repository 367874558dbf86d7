"""Currencies by ISO 4217, conversion at a stated rate, printed cash roundings."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.reference.money import read_money_facts
from counter.reference.money_records import CashExample
from counter.values.currency import (
    cash,
    from_sterling,
    read_code,
    read_rate,
    to_sterling,
    written,
)
from counter.values.currency import (
    read_money as read_any,
)
from counter.values.errors import InputError

FACTS = read_money_facts()
KNOWN = FACTS.currencies
GBP = KNOWN["GBP"]


@pytest.mark.parametrize("example", FACTS.cash_examples.values(), ids=lambda each: each.id)
def test_printed_cash_roundings(example: CashExample) -> None:
    # enc-cash-rounding: Australian till rules, and the old Swedish 50 öre steps on a receipt.
    step = example.step or KNOWN[example.currency].cash_step
    assert cash(example.amount, step) == example.cash


@pytest.mark.parametrize(
    ("typed", "amount", "code"),
    [
        ("€45.50", 4550, "EUR"),
        ("USD 20", 2000, "USD"),
        ("20 usd", 2000, "USD"),
        ("¥1,200", 1200, "JPY"),
        ("45", 4500, "GBP"),
        ("25p", 25, "GBP"),
        ("CHF 10.05", 1005, "CHF"),
        ("A$3", 300, "AUD"),
    ],
)
def test_amounts_with_their_currency(typed: str, amount: int, code: str) -> None:
    assert read_any(typed, KNOWN, GBP) == (amount, KNOWN[code])


@pytest.mark.parametrize("typed", ["ZZZ 5", "¥5.5", "€-3", "€3.005", "fifty", "€", "5 5"])
def test_other_amounts_are_refused(typed: str) -> None:
    with pytest.raises(InputError):
        read_any(typed, KNOWN, GBP)


def test_an_unknown_currency_is_named_with_those_that_are_kept() -> None:
    with pytest.raises(InputError, match="ZZZ is not a currency kept here; use one of GBP, EUR"):
        read_code("ZZZ", KNOWN)


RATES = st.decimals(Decimal("0.01"), 300, places=4)


@given(st.integers(0, 10**9), RATES, st.sampled_from(list(KNOWN.values())))
def test_conversion_rounds_half_up_once(amount: int, rate: Decimal, currency: object) -> None:
    # convention "fx-once" (govuk-fx): sterling = foreign / rate, foreign = sterling * rate
    assert hasattr(currency, "decimals")
    unit = 10**currency.decimals
    foreign = (Decimal(amount) / 100 * rate * unit).quantize(Decimal(1), ROUND_HALF_UP)
    assert from_sterling(amount, currency, rate) == int(foreign)  # type: ignore[arg-type]
    pence = to_sterling(amount, currency, rate)  # type: ignore[arg-type]
    exact = Decimal(amount) / unit / rate * 100
    assert abs(Decimal(pence) - exact) <= Decimal("0.5000001")


@pytest.mark.parametrize("typed", ["0", "-1", "1.2.3", "abc", "1e2", "", "0.0"])
def test_a_rate_must_be_a_plain_positive_decimal(typed: str) -> None:
    with pytest.raises(InputError, match="is not a rate"):
        read_rate(typed)


def test_amounts_are_written_in_their_own_units() -> None:
    assert written(120000, KNOWN["JPY"]) == "¥120000"
    assert written(1005, KNOWN["CHF"]) == "CHF 10.05"
    assert written(4550, KNOWN["EUR"]) == "€45.50"
