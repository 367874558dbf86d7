"""VAT sums on exact pence: the margin scheme, global accounting, ordinary VAT, and none.

`fraction` is the part of a VAT-inclusive amount that is VAT: rate / (100 + rate), one sixth at 20 %.
A dealer who is not registered counts with a fraction of nought: no VAT anywhere. The rules are those
of HMRC's margin-scheme guidance; ask HMRC or an accountant before relying on a figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from counter.values.money import half_up

NO_VAT = Fraction(0)


def fraction_words(part: Fraction) -> str:
    """The part of a price that is VAT as it is noted and read back: 1/6, 0/1."""
    return f"{part.numerator}/{part.denominator}"


@dataclass(frozen=True, slots=True)
class Margin:
    """One sale in pence: what was made on it, the VAT in that, and what is left."""

    margin: int
    vat: int
    net: int


@dataclass(frozen=True, slots=True)
class GlobalPeriod:
    """Global accounting of one VAT period, in pence; `balance` is after what was brought forward."""

    margin: int
    balance: int
    vat: int
    carried_forward: int


def vat_within(amount: int, fraction: Fraction) -> int:
    """The VAT inside a VAT-inclusive amount, rounded half up; nothing on nought or a loss."""
    return half_up(amount * fraction) if amount > 0 else 0


def on_margin(bought: int, sold: int, fraction: Fraction) -> Margin:
    """One item under the margin scheme: VAT on the margin alone, nil and never below on a loss."""
    margin = sold - bought
    vat = vat_within(margin, fraction)
    return Margin(margin, vat, margin - vat)


def on_full_price(bought: int, sold: int, fraction: Fraction) -> Margin:
    """One item under ordinary VAT: the whole selling price bears it."""
    vat = vat_within(sold, fraction)
    return Margin(sold - bought, vat, sold - bought - vat)


def global_period(purchases: int, sales: int, brought_forward: int, fraction: Fraction) -> GlobalPeriod:
    """All eligible sales less all purchases of a period; an excess of purchases is carried on."""
    margin = sales - purchases
    balance = margin - brought_forward
    return GlobalPeriod(margin, balance, vat_within(balance, fraction), max(0, -balance))


def least_margin(profit: int, fraction: Fraction) -> int:
    """The smallest margin that leaves the profit after its own rounded VAT."""
    if profit <= 0:
        return profit
    margin = ceil((profit - Fraction(1, 2)) / (1 - fraction))
    while margin - vat_within(margin, fraction) < profit:
        margin += 1
    return margin


def least_price(cost: int, profit: int, fraction: Fraction) -> int:
    """The smallest selling price that leaves the profit after VAT on the margin."""
    return cost + least_margin(profit, fraction)


def least_full_price(cost: int, profit: int, fraction: Fraction) -> int:
    """The smallest selling price that leaves the profit after VAT on the whole of it."""
    return least_margin(cost + profit, fraction)


def greatest_offer(resale: int, profit: int, fraction: Fraction) -> int | None:
    """The largest buying price that leaves the profit at that resale; None when nothing does."""
    offer = resale - least_margin(profit, fraction)
    return offer if offer >= 0 else None
