"""Robust statistics on exact numbers: one freak price must not move a quote.

Each function is a published method; the reference's `methods` name the source of each by its id,
with worked numbers. Values and weights are whole pence, Fractions or Decimals, never floats.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from math import comb
from typing import NamedTuple

Number = Fraction | Decimal | int

#: A modified z-score beyond this is flagged (asqc-outliers).
FLAG_BEYOND = Fraction(7, 2)


class Weighted(NamedTuple):
    """A weighted median: lower and upper differ when the weights split exactly in half."""

    lower: Fraction
    upper: Fraction
    midpoint: Fraction


def median(values: Sequence[Number]) -> Fraction:
    """The middle value, or the mean of the two middle ones (method "median")."""
    ordered = sorted(Fraction(value) for value in values)
    middle = len(ordered) // 2
    if len(ordered) % 2:
        return ordered[middle]
    return (ordered[middle - 1] + ordered[middle]) / 2


def weighted_median(values: Sequence[Number], weights: Sequence[Number]) -> Weighted:
    """Where the running weight passes half the total (method "weighted-median")."""
    pairs = sorted(
        (Fraction(value), Fraction(weight))
        for value, weight in zip(values, weights, strict=True)
        if weight > 0
    )
    half = sum((weight for _, weight in pairs), Fraction(0)) / 2
    running = Fraction(0)
    for place, (value, weight) in enumerate(pairs):
        running += weight
        if running > half:
            return Weighted(value, value, value)
        if running == half:
            upper = pairs[place + 1][0]
            return Weighted(value, upper, (value + upper) / 2)
    raise ValueError("a weighted median needs at least one weight above nought")


def absolute_deviation(values: Sequence[Number]) -> Fraction:
    """The median distance from the median (method "mad"): a spread no freak can blow up."""
    centre = median(values)
    return median([abs(Fraction(value) - centre) for value in values])


def modified_scores(values: Sequence[Number]) -> tuple[Fraction, ...] | None:
    """Modified z-scores (method "modified-z"); None when more than half the values are equal."""
    spread = absolute_deviation(values)
    if spread == 0:
        return None
    centre = median(values)
    return tuple(Fraction("0.6745") * (Fraction(value) - centre) / spread for value in values)


def hinges(values: Sequence[Number]) -> tuple[Fraction, Fraction]:
    """Quartiles with the median in both halves (method "quartiles-two-ways", inclusive)."""
    ordered = sorted(values)
    half = (len(ordered) + 1) // 2
    return median(ordered[:half]), median(ordered[-half:])


def fences(values: Sequence[Number]) -> tuple[Fraction, Fraction]:
    """The bounds 1.5 interquartile ranges beyond the hinges (method "fences")."""
    low, high = hinges(values)
    reach = Fraction(3, 2) * (high - low)
    return low - reach, high + reach


def age_weight(months: float, half_life: int) -> Fraction:
    """2 to the power of minus age over half-life (method "half-life-weights"), to six places."""
    return Fraction(round(1_000_000 * 2.0 ** (-max(months, 0.0) / half_life)), 1_000_000)


def effective_number(weights: Sequence[Number]) -> Fraction:
    """How many equal comparables the weighted ones are worth (method "effective-n")."""
    exact = [Fraction(weight) for weight in weights]
    squares = sum(weight * weight for weight in exact)
    return sum(exact, Fraction(0)) ** 2 / squares if squares else Fraction(0)


def coverage(count: int, place: int) -> Fraction:
    """How likely the place-th lowest to the place-th highest cover the median ("median-interval")."""
    outside = sum(comb(count, below) for below in range(place))
    return 1 - Fraction(2 * outside, 2**count)


def median_interval(
    values: Sequence[Number], wanted: Fraction = Fraction(19, 20)
) -> tuple[Fraction, Fraction, Fraction]:
    """The narrowest such interval that covers as wanted, else lowest to highest: (low, high, cover)."""
    ordered = sorted(Fraction(value) for value in values)
    place = 1
    while 2 * (place + 1) <= len(ordered) and coverage(len(ordered), place + 1) >= wanted:
        place += 1
    return ordered[place - 1], ordered[-place], coverage(len(ordered), place)


def slope(times: Sequence[Number], values: Sequence[Number]) -> Fraction:
    """The median of the slopes between all pairs (method "median-of-slopes"): is the price drifting?

    Raises ValueError when all times are the same.
    """
    points = [(Fraction(time), Fraction(value)) for time, value in zip(times, values, strict=True)]
    slopes = [
        (later[1] - earlier[1]) / (later[0] - earlier[0])
        for place, earlier in enumerate(points)
        for later in points[place + 1 :]
        if later[0] != earlier[0]
    ]
    if not slopes:
        raise ValueError("a slope needs two different times")
    return median(slopes)
