"""VAT sums for any figures: never negative, losses never offset, offers and prices the tightest."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from counter.reference.money import read_money_facts
from counter.values.vat import (
    NO_VAT,
    global_period,
    greatest_offer,
    least_margin,
    least_price,
    on_full_price,
    on_margin,
)

FACTS = read_money_facts()
PENCE = st.integers(0, 10**9)
PARTS = st.sampled_from([rate.part for rate in FACTS.rates] + [NO_VAT])


@given(PENCE, PENCE, PARTS)
def test_margin_and_vat_and_net_hang_together(bought: int, sold: int, part: Fraction) -> None:
    made = on_margin(bought, sold, part)
    assert made.vat >= 0
    assert made.margin == sold - bought == made.vat + made.net
    if sold <= bought:
        assert made.vat == 0
    exact = Decimal(max(made.margin, 0)) * part.numerator / part.denominator
    assert made.vat == int(exact.quantize(Decimal(1), ROUND_HALF_UP))


@given(PENCE, PENCE, PARTS)
def test_ordinary_vat_is_on_the_whole_price(bought: int, sold: int, part: Fraction) -> None:
    made = on_full_price(bought, sold, part)
    assert made.vat >= on_margin(bought, sold, part).vat
    assert made.net == sold - bought - made.vat


@given(st.lists(st.tuples(PENCE, PENCE), min_size=1, max_size=8), PARTS)
def test_global_accounting_carries_losses_and_never_refunds(
    periods: list[tuple[int, int]], part: Fraction
) -> None:
    carried = 0
    for bought, sold in periods:
        period = global_period(bought, sold, carried, part)
        assert period.vat >= 0 and period.carried_forward >= 0
        assert period.vat == 0 or period.carried_forward == 0
        carried = period.carried_forward
    # what was taxed and what is carried add up to all sales less all purchases
    total = sum(sold - bought for bought, sold in periods)
    assert -carried <= total


@given(st.integers(-(10**6), 10**8), PARTS)
def test_the_least_margin_is_the_least(profit: int, part: Fraction) -> None:
    margin = least_margin(profit, part)
    assert on_margin(0, margin, part).net >= profit
    assert on_margin(0, margin - 1, part).net < profit


@given(PENCE, st.integers(0, 10**8), PARTS)
def test_an_offer_leaves_the_profit_and_a_penny_more_does_not(
    resale: int, profit: int, part: Fraction
) -> None:
    offer = greatest_offer(resale, profit, part)
    if offer is None:
        assert on_margin(0, resale, part).net < profit
        return
    assert on_margin(offer, resale, part).net >= profit
    assert on_margin(offer + 1, resale, part).net < profit
    assert least_price(offer, profit, part) <= resale


def test_the_rate_is_that_of_the_day_of_the_sale() -> None:
    # vat-rate-table: 17.5 % ended on 3 January 2011, 20 % began on the 4th.
    assert FACTS.rate_on("2011-01-03").part == Fraction(7, 47)
    assert FACTS.rate_on("2011-01-04").part == Fraction(1, 6)
    assert FACTS.rate_on("2008-12-01").part == Fraction(3, 23)
    assert FACTS.rate_on("2026-05-01").rate_percent == 20
