"""Sharing to the penny: lots and discounts, for any input."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.values.errors import InputError
from counter.values.money import share, without_discount

WEIGHTS = st.lists(st.integers(0, 10**8), min_size=1, max_size=40).filter(any)


@given(st.integers(0, 10**10), WEIGHTS)
def test_a_split_adds_up_and_no_part_is_a_penny_from_exact(total: int, weights: list[int]) -> None:
    parts = share(total, weights)
    assert sum(parts) == total
    for part, weight in zip(parts, weights, strict=True):
        exact = Decimal(total) * weight / sum(weights)
        assert abs(Decimal(part) - exact) < 1 + Decimal("0.0001")
        assert part == 0 or weight > 0


@given(st.integers(0, 10**10), WEIGHTS)
def test_equal_lines_differ_by_a_penny_at_most_and_the_earlier_has_it(
    total: int, weights: list[int]
) -> None:
    parts = share(total, [1] * len(weights))
    assert max(parts) - min(parts) <= 1
    assert list(parts) == sorted(parts, reverse=True)


@given(st.lists(st.integers(0, 10**7), min_size=1, max_size=40), st.data())
def test_a_discount_adds_up_and_never_turns_a_price_negative(
    prices: list[int], data: st.DataObject
) -> None:
    discount = data.draw(st.integers(0, sum(prices)))
    left = without_discount(prices, discount)
    assert sum(left) == sum(prices) - discount
    assert all(0 <= after <= before for after, before in zip(left, prices, strict=True))


@pytest.mark.parametrize(("total", "weights"), [(-1, [1]), (100, [-1, 2]), (100, [0, 0]), (100, [])])
def test_what_cannot_be_shared_is_refused(total: int, weights: list[int]) -> None:
    with pytest.raises(InputError):
        share(total, weights)


def test_a_discount_above_the_prices_is_refused() -> None:
    with pytest.raises(InputError, match=r"£3\.00"):
        without_discount([100, 200], 301)


def test_left_over_pence_go_to_the_largest_remainders() -> None:
    # Convention "largest-remainder" (common practice), worked by hand: 1935.48, 2903.23 and 5161.29
    # pence; the floors leave one penny, and .48 is the largest remainder.
    assert share(10000, [3000, 4500, 8000]) == (1936, 2903, 5161)
    assert share(1, [1, 1, 1]) == (1, 0, 0)
