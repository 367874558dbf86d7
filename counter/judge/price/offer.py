"""What to offer when buying: the highest price that leaves the wanted profit after VAT."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from counter.judge.judgement import Judgement, Reason
from counter.reference.money import DEFER, MoneyFacts
from counter.values.money import half_up, pounds
from counter.values.vat import greatest_offer, on_margin

#: The wanted profit: so many pence, or a part of what it sells for.
Wanted = int | Fraction


@dataclass(frozen=True, slots=True)
class Haggled:
    """The same when it goes for less than marked: what it then sells for, may cost and leaves."""

    resale: int
    price: int | None
    profit: int


@dataclass(frozen=True, slots=True)
class Offer:
    """The highest buying price in pence (None: nothing leaves that profit) and what follows from it.

    `haggled` is the highest price that leaves the profit wanted even after the usual haggling.
    """

    price: int | None
    resale: int
    profit: int
    vat: int
    share: Fraction
    haggled: Haggled
    judgement: Judgement


def room_to_haggle(facts: MoneyFacts) -> Fraction:
    """The middle of the habit's band: the part of a marked price usually given away at a fair."""
    habit = facts.pricing["negotiating-room"]
    return Fraction((habit.low or 0) + (habit.high or 0)) / 2


def profit_at(resale: int, wanted: Wanted) -> int:
    """The wanted profit in pence at a selling price."""
    return wanted if isinstance(wanted, int) else half_up(resale * wanted)


def offer(resale: int, wanted: Wanted, fraction: Fraction, facts: MoneyFacts) -> Offer:
    """The greatest offer at an expected resale (convention "max-offer"), VAT on the margin counted."""
    profit = profit_at(resale, wanted)
    price = greatest_offer(resale, profit, fraction)
    lower = resale - half_up(resale * room_to_haggle(facts))
    left = profit_at(lower, wanted)
    haggled = Haggled(lower, greatest_offer(lower, left, fraction), left)
    if price is None:
        words = f"No price leaves {pounds(profit)} when it resells at {pounds(resale)}."
        return Offer(None, resale, profit, 0, Fraction(0), haggled, Judgement(words))
    made = on_margin(price, resale, fraction)
    share = Fraction(price, resale) if resale else Fraction(0)
    words = (
        f"Offer at most {pounds(price)}: {float(share):.0%} of {pounds(resale)}, "
        f"{pounds(made.vat)} VAT on the margin, {pounds(made.net)} left. {_haggling(haggled)}"
    )
    reasons = [
        _reason(rule.id, rule.text, rule.source)
        for rule in (facts.conventions["max-offer"], facts.pricing["buy-account-for-vat"])
    ]
    reasons += [_band(facts, which, share) for which in ("buy-choice-single", "buy-general")]
    judgement = Judgement(words, tuple(reasons), cautions=(DEFER,))
    return Offer(price, resale, profit, made.vat, share, haggled, judgement)


def _haggling(haggled: Haggled) -> str:
    at = f"haggled down to {pounds(haggled.resale)}"
    if haggled.price is None:
        return f"With room to haggle, {at}, no price leaves {pounds(haggled.profit)}."
    return (
        f"With room to haggle, {at}, at most {pounds(haggled.price)} leaves {pounds(haggled.profit)}."
    )


def _reason(code: str, text: str, source: str) -> Reason:
    return Reason(code, text, source, "low", "neutral")


def _band(facts: MoneyFacts, which: str, share: Fraction) -> Reason:
    """A trade band and where this offer lies in it."""
    habit = facts.pricing[which]
    low, high = Fraction(habit.low or 0), Fraction(habit.high or 1)
    lies = "below" if share < low else "above" if share > high else "within"
    text = f"{habit.text} {float(low):.0%} to {float(high):.0%}: this offer lies {lies} it."
    return _reason(habit.id, text, habit.source)
