"""What is more than noise between sold prices: two groups that differ, two levels, a drift.

Prices are compared by their logarithms, so that a tenth more counts the same at £10 and at £1,000.
The tests are published ones; where they are set is the house's own habit. Decimals, never floats.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

#: Student's t, one-sided 0.90 and 0.99, by degrees of freedom (NIST e-Handbook 1.3.6.7.2).
_FREEDOM = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 30, 60)
_T_90 = "3.078 1.886 1.638 1.533 1.476 1.440 1.415 1.397 1.383 1.372 1.356 1.341 1.325 1.310 1.296"
_T_99 = "31.821 6.965 4.541 3.747 3.365 3.143 2.998 2.896 2.821 2.764 2.681 2.602 2.528 2.457 2.390"
_TABLES = {
    "0.90": tuple(map(Decimal, _T_90.split())),
    "0.99": tuple(map(Decimal, _T_99.split())),
}
#: Two prices of one thing differ by this much at least, in logarithm: an easy figure, a haggle.
_LEAST_SPREAD = Decimal("0.05")
#: How far prices of old stamps drift in a year, as a standard deviation of the logarithm (house habit).
_USUAL_DRIFT = Decimal("0.08")
#: Prices far from the rest are not seen here, so what is seen lies closer than it would: so many degrees
#: of freedom are taken off for it (set by simulation, see docs/money.md).
_UNSEEN = 2
#: Two levels: a gap of so many times between neighbours, so many times what lies within the levels.
_LEVEL_GAP, _LEVEL_CLEAR = Decimal("1.6").ln(), Decimal(3)
#: The lesser level is made of at least this part of the prices, and of two.
_LESSER_LEVEL = Fraction(1, 5)


def quantile(level: str, freedom: Decimal | int) -> Decimal:
    """Student's t of a level ("0.90", "0.99", one-sided), between the table's lines by 1/freedom."""
    table, wanted = _TABLES[level], max(Decimal(freedom), Decimal(1))
    place = bisect_right(_FREEDOM, wanted) - 1
    if place + 1 == len(_FREEDOM):
        return table[-1]
    lower, upper = 1 / Decimal(_FREEDOM[place]), 1 / Decimal(_FREEDOM[place + 1])
    part = (lower - 1 / wanted) / (lower - upper)
    return table[place] + part * (table[place + 1] - table[place])


def logarithms(prices: Sequence[Fraction]) -> list[Decimal]:
    """Natural logarithms of prices in pence, all above nought."""
    return [(Decimal(price.numerator) / Decimal(price.denominator)).ln() for price in prices]


def mean(values: Sequence[Decimal]) -> Decimal:
    """The arithmetic mean."""
    return sum(values, Decimal(0)) / len(values)


def differ(some: Sequence[Decimal], others: Sequence[Decimal]) -> Decimal:
    """How far two groups of logarithms differ: Student's two-sample t over its value at 2 %.

    Above 1 they differ beyond noise: of like groups one pair in fifty does by chance. One group
    may be a single price; nought when nothing can be said.
    """
    freedom = len(some) + len(others) - 2
    if freedom < 1 or not some or not others:
        return Decimal(0)
    centre = mean(some), mean(others)
    groups = zip((some, others), centre, strict=True)
    squares = sum(((value - at) ** 2 for group, at in groups for value in group), Decimal(0))
    spread = max((squares / freedom).sqrt(), _LEAST_SPREAD)
    error = spread * (1 / Decimal(len(some)) + 1 / Decimal(len(others))).sqrt()
    return abs(centre[0] - centre[1]) / error / quantile("0.99", freedom)


def two_levels(logs: Sequence[Decimal]) -> Decimal | None:
    """Where the prices fall apart into two levels with nothing between: the middle of the gap."""
    ordered = sorted(logs)
    gaps = [(upper - lower, place) for place, (lower, upper) in enumerate(pairwise(ordered), 1)]
    gap, place = max(gaps, default=(Decimal(0), 0))
    lesser = min(place, len(ordered) - place)
    if gap < _LEVEL_GAP or lesser < 2 or lesser < _LESSER_LEVEL * len(ordered):
        return None
    within = [
        mean([abs(value - mean(part)) for value in part]) for part in (ordered[:place], ordered[place:])
    ]
    if gap < _LEVEL_CLEAR * max(*within, _LEAST_SPREAD):
        return None
    return (ordered[place - 1] + ordered[place]) / 2


@dataclass(frozen=True, slots=True)
class Drift:
    """How prices moved, in logarithm a year (above nought: they rose), as far as it is believed; and
    where a next sale today would lie, four times in five."""

    yearly: Decimal
    sure: bool
    low: Decimal
    high: Decimal


def drift(years: Sequence[Decimal], logs: Sequence[Decimal]) -> Drift:
    """A straight line through logarithms of prices by their age, its slope believed by credibility.

    Least squares; the slope counts Z = S/(S + s²/usual²) of itself, S the squares of the ages about
    their mean, s² the spread about the line (method "credibility"). The range is the prediction
    interval of such a line at age nought, by Student's t. Three prices at least.
    """
    age, level = mean(years), mean(logs)
    squares = sum((year - age) ** 2 for year in years)
    raw = sum((y - age) * (v - level) for y, v in zip(years, logs, strict=True))
    slope = raw / squares if squares else Decimal(0)
    believed, spread = Decimal(0), _variance(years, logs, Decimal(0), 1)
    for _ in range(3):
        believed = squares / (squares + spread / _USUAL_DRIFT**2)
        spread = _variance(years, logs, believed * slope, 1 + believed)
    now = level - believed * slope * age
    doubt = age**2 / (squares + spread / _USUAL_DRIFT**2)
    reach = (spread * (1 + 1 / Decimal(len(logs)) + doubt)).sqrt()
    reach *= quantile("0.90", len(logs) - _UNSEEN - 1 - believed)
    error = (spread / squares).sqrt() if squares else Decimal(1)
    return Drift(-believed * slope, abs(slope) > 2 * error, now - reach, now + reach)


def _variance(
    years: Sequence[Decimal], logs: Sequence[Decimal], slope: Decimal, used: Decimal | int
) -> Decimal:
    age, level = mean(years), mean(logs)
    rest = sum(
        (value - level - slope * (year - age)) ** 2 for year, value in zip(years, logs, strict=True)
    )
    return max(Decimal(rest) / (len(logs) - used), _LEAST_SPREAD**2)
