"""Marked prices at easy figures (pricing habit "round-prices"); only what is marked is rounded."""

from __future__ import annotations

#: Up to so many pence, steps of so many.
_STEPS = ((10_00, 50), (100_00, 1_00), (500_00, 5_00))
_HIGH = 10_00


def easy_price(pence: int) -> int:
    """The nearest easy figure: 50p steps to £10, pounds to £100, fives to £500, tens above."""
    step = next((step for limit, step in _STEPS if pence <= limit), _HIGH)
    return max((2 * pence + step) // (2 * step) * step, step) if pence > 0 else 0
