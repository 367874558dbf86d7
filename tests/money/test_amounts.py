"""Amounts read, written and rounded; Python's decimal is the outside reference."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.values.errors import InputError
from counter.values.money import (
    chain_discount,
    half_up,
    marked,
    percent_of,
    plain,
    pounds,
    read_pence,
)


@pytest.mark.parametrize(
    ("typed", "pence"),
    [
        ("£45", 4500),
        ("45", 4500),
        ("45.00", 4500),
        ("45.5", 4550),
        ("1,250", 125000),
        ("£1,250.50", 125050),
        ("25p", 25),
        ("25 p", 25),
        ("GBP 45", 4500),
        ("45 gbp", 4500),
        ("£ 3", 300),
        (".50", 50),
        ("0", 0),
        ("  £12  ", 1200),
    ],
)
def test_amounts_are_read_as_a_dealer_types_them(typed: str, pence: int) -> None:
    assert read_pence(typed) == pence


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("-5", "negative"),
        ("£-5", "negative"),
        ("−5", "negative"),
        ("5.005", "too many decimals"),
        ("1.5p", "not a price"),
        ("$45", "not a price"),
        ("45/-", "shillings"),
        ("7/6", "shillings"),
        ("1e3", "not a price"),
        ("nan", "not a price"),
        ("inf", "not a price"),
        ("", "Nothing"),
        ("£", "not a price"),
        ("1,25", "not a price"),
        ("12.", "not a price"),
        ("٤٥", "not a price"),
        ("9" * 5000, "too large"),
        ("45 45", "not a price"),
        (",", "not a price"),
    ],
)
def test_what_is_not_an_amount_is_refused_in_one_sentence(typed: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        read_pence(typed)
    assert says in str(refused.value) and "\n" not in str(refused.value)


@given(st.integers(0, 10**11))
def test_what_is_written_is_read_back(pence: int) -> None:
    assert read_pence(pounds(pence)) == read_pence(plain(pence)) == read_pence(marked(pence)) == pence


@given(st.text(max_size=20))
def test_no_text_breaks_the_reader(text: str) -> None:
    try:
        assert read_pence(text) >= 0
    except InputError as refused:
        assert str(refused).endswith(".")


@given(st.integers(-(10**12), 10**12), st.integers(1, 10**6))
def test_rounding_is_decimals_half_up(numerator: int, denominator: int) -> None:
    # Half a penny or more up, below half down: VATREC12030. Exact ties are hit by the second line.
    fraction = Fraction(numerator, denominator)
    if denominator in (1, 2, 4, 5, 8, 10, 20, 100, 1000):
        exact = Decimal(numerator) / Decimal(denominator)
        assert half_up(fraction) == int(exact.quantize(Decimal(1), ROUND_HALF_UP))
    assert abs(fraction - half_up(fraction)) <= Fraction(1, 2)
    tie = Fraction(2 * numerator + 1, 2)
    assert half_up(tie) == int((Decimal(2 * numerator + 1) / 2).quantize(Decimal(1), ROUND_HALF_UP))


@given(st.integers(0, 10**9), st.decimals(0, 100, places=2))
def test_a_percentage_is_rounded_once(amount: int, percent: Decimal) -> None:
    exact = Decimal(amount) * percent / 100
    assert percent_of(amount, percent) == int(exact.quantize(Decimal(1), ROUND_HALF_UP))


def test_discounts_in_a_chain_multiply_on_the_unrounded_price() -> None:
    # Convention "discount-chain" (common practice): 99.99 less 10 % less 5 % = 85.49145.
    assert chain_discount(9999, [10, 5]) == 8549
    assert chain_discount(9999, []) == 9999
    with pytest.raises(InputError, match="0 to 100"):
        chain_discount(100, [101])


@pytest.mark.parametrize(
    ("pence", "written", "short"),
    [
        (0, "£0.00", "£0"),
        (50, "£0.50", "50p"),
        (4500, "£45.00", "£45"),
        (125050, "£1,250.50", "£1,250.50"),
        (-5000, "-£50.00", "-£50"),
    ],
)
def test_money_is_written_for_books_and_for_marking(pence: int, written: str, short: str) -> None:
    assert (pounds(pence), marked(pence)) == (written, short)
