"""What to offer when buying: the highest price that leaves the wanted profit after VAT."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from counter.judge.judgement import Judgement, Reason
from counter.reference.money import DEFER, MoneyFacts
from counter.values.money import pounds
from counter.values.vat import greatest_offer, on_margin


@dataclass(frozen=True, slots=True)
class Offer:
    """The highest buying price in pence (None: nothing leaves that profit) and what follows from it."""

    price: int | None
    resale: int
    profit: int
    vat: int
    share: Fraction
    judgement: Judgement


def offer(resale: int, profit: int, fraction: Fraction, facts: MoneyFacts) -> Offer:
    """The greatest offer at an expected resale (convention "max-offer"), VAT on the margin counted."""
    price = greatest_offer(resale, profit, fraction)
    if price is None:
        words = f"No price leaves {pounds(profit)} when it resells at {pounds(resale)}."
        return Offer(None, resale, profit, 0, Fraction(0), Judgement(words))
    made = on_margin(price, resale, fraction)
    share = Fraction(price, resale) if resale else Fraction(0)
    words = (
        f"Offer at most {pounds(price)}: {float(share):.0%} of {pounds(resale)}, "
        f"{pounds(made.vat)} VAT on the margin, {pounds(made.net)} left."
    )
    reasons = [
        _reason(rule.id, rule.text, rule.source)
        for rule in (facts.conventions["max-offer"], facts.pricing["buy-account-for-vat"])
    ]
    reasons += [_band(facts, which, share) for which in ("buy-choice-single", "buy-general")]
    return Offer(
        price, resale, profit, made.vat, share, Judgement(words, tuple(reasons), cautions=(DEFER,))
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
