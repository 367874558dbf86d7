"""The quote in hand: discounts share to the penny (decimal and hypothesis as outside checks)."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.values.errors import InputError
from counter.values.quote import QuoteLine, RunningQuote, quote_from_row, quote_to_row

PRICES = st.lists(st.integers(1, 10_000_00), min_size=1, max_size=12)


def quote_of(prices: list[int]) -> RunningQuote:
    return RunningQuote(tuple(QuoteLine(f"A{n}", "1d [red]", p) for n, p in enumerate(prices)))


@given(PRICES, st.decimals(0, 100, places=2))
def test_a_percentage_rounds_once_and_shares_exactly(prices: list[int], percent: Decimal) -> None:
    quote = quote_of(prices).discounted(f"{percent}%")
    exact = Decimal(sum(prices)) * (100 - percent) / 100
    assert quote.total == int(exact.quantize(Decimal(1), ROUND_HALF_UP))
    assert sum(quote.prices) == quote.total
    assert all(0 <= part <= whole for part, whole in zip(quote.prices, prices, strict=True))


@given(PRICES, st.data())
def test_a_price_for_the_lot_shares_exactly(prices: list[int], data: st.DataObject) -> None:
    lot = data.draw(st.integers(0, sum(prices)))
    quote = quote_of(prices).discounted(f"£{lot // 100}.{lot % 100:02d}")
    assert quote.total == lot == sum(quote.prices)


@given(PRICES)
def test_a_kept_quote_comes_back_the_same(prices: list[int]) -> None:
    quote = quote_of(prices).discounted("7.5%")
    assert quote_from_row(quote_to_row(quote)) == quote


def test_the_lot_price_lapses_when_the_lot_changes() -> None:
    quote = quote_of([1000, 2000]).discounted("£25")
    assert quote.total == 2500
    assert quote.remove("A0").total == 2000
    assert quote.add(QuoteLine("B1", "2d blue", 500)).total == 3500


def test_it_reads_back_plainly() -> None:
    quote = quote_of([12500, 4500]).discounted("10%")
    assert quote.to_read().splitlines() == [
        "£125.00  A0  1d [red]",
        " £45.00  A1  1d [red]",
        "£153.00  total (£170 less 10 %)",
    ]


@pytest.mark.parametrize("words", ["101%", "ten%", "-5", "£9999", "10.123", "%"])
def test_a_discount_that_cannot_be_is_refused_in_one_sentence(words: str) -> None:
    with pytest.raises(InputError) as refused:
        quote_of([1000]).discounted(words)
    assert str(refused.value).count(".") <= 3 and len(str(refused.value)) < 120


def test_the_same_number_is_not_quoted_twice() -> None:
    with pytest.raises(InputError):
        quote_of([100]).add(QuoteLine("A0", "again", 100))
