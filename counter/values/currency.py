"""Currencies by ISO 4217: their minor units, cash steps, and conversion at a rate the dealer gives.

Rates are foreign units per one pound, as HMRC publishes them. Each conversion rounds half up once.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from counter.values.errors import InputError
from counter.values.money import half_up, plain, read_amount, read_pence


@dataclass(frozen=True, slots=True)
class Currency:
    """A currency: ISO code, decimals of its minor unit, the smallest cash step in minor units."""

    code: str
    numeric: str
    name: str
    symbol: str
    decimals: int
    minor_name: str
    cash_step: int
    rounding: str
    source: str
    also: tuple[str, ...] = ()


_WITH_SIGN = re.compile(r"(?P<before>[^\d.,\s-]*)\s*(?P<amount>-?[\d.,]+)\s*(?P<after>[^\d.,\s]*)")


def read_code(text: str, known: Mapping[str, Currency]) -> Currency:
    """The currency of a code or symbol ("eur", "€"); raises InputError for one that is not known."""
    words = text.strip()
    for each in known.values():
        if words.upper() == each.code or words == each.symbol:
            return each
    raise InputError(f"{words} is not a currency kept here; use one of {', '.join(known)}.")


def read_money(text: str, known: Mapping[str, Currency], default: Currency) -> tuple[int, Currency]:
    """An amount with or without its currency: "€45.50", "USD 20", "45" -> (minor units, currency)."""
    words = text.strip()
    found = _WITH_SIGN.fullmatch(words)
    if found is None:
        return read_pence(words), default
    sign = found["before"] or found["after"]
    if sign in ("p", "P"):
        return read_pence(words), default
    currency = read_code(sign, known) if sign else default
    return read_amount(found["amount"], currency.decimals, f"an amount in {currency.code}"), currency


def read_rate(text: str) -> Decimal:
    """A rate of exchange, foreign units for one pound: a plain positive decimal. Raises InputError."""
    words = text.strip()
    if not re.fullmatch(r"[0-9]{1,9}(?:\.[0-9]{1,8})?", words) or not Decimal(words):
        raise InputError(f"{words} is not a rate; write how many units one pound buys, as 1.1650.")
    return Decimal(words)


def to_sterling(amount: int, currency: Currency, rate: Decimal) -> int:
    """Minor units of a currency as pence, at so many units for one pound."""
    return half_up(Fraction(amount, 10**currency.decimals) / Fraction(rate) * 100)


def from_sterling(pence: int, currency: Currency, rate: Decimal) -> int:
    """Pence as minor units of a currency, at so many units for one pound."""
    return half_up(Fraction(pence, 100) * Fraction(rate) * 10**currency.decimals)


def cash(amount: int, step: int) -> int:
    """An amount as handed over in cash: the nearest step, a half step up. Never for cards."""
    return half_up(Fraction(amount, step)) * step


def written(amount: int, currency: Currency) -> str:
    """£45.00, €45.50, CHF 45.05: a symbol of letters keeps its distance."""
    gap = " " if currency.symbol.isalpha() else ""
    return f"{currency.symbol}{gap}{plain(amount, currency.decimals)}"
