"""Money as whole pence: read from what was typed, written out, rounded and shared exactly.

Nothing here is ever a float. Rounding is half up to the penny (VATREC12030); sharing is by largest
remainder, so that the parts always add up to the whole.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from counter.values.errors import InputError

_AMOUNT = re.compile(r"(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)?(?:\.[0-9]*)?")
_SHILLINGS = re.compile(r"[0-9]+/(?:-|[0-9]+)")
_LONGEST = 12  # digits: a thousand million pounds and its pence; more is a slip of the hand


def read_amount(text: str, decimals: int, wanted: str = "an amount") -> int:
    """Digits such as "1,250.50" as minor units of a currency with so many decimals.

    Raises InputError for a minus, too many decimals, and whatever is not a plain amount.
    """
    words = text.strip()
    if words[:1] in ("-", "−"):
        raise InputError(f"{wanted[:1].upper()}{wanted[1:]} cannot be negative; {words} was given.")
    if not _AMOUNT.fullmatch(words) or not re.search(r"[0-9]", words) or words.endswith("."):
        raise InputError(f"{words or 'Nothing'} is not {wanted}; write it like {_example(decimals)}.")
    whole, _, part = words.replace(",", "").partition(".")
    if len(part) > decimals:
        few = "no decimals" if decimals == 0 else f"at most {decimals} decimals"
        raise InputError(f"{words} has too many decimals; write {wanted} with {few}.")
    if len(whole) + len(part) > _LONGEST:
        raise InputError(f"{words} is too large for {wanted}; check the figure.")
    unit: int = 10**decimals
    return int(whole or "0") * unit + int((part or "0").ljust(decimals, "0") or "0")


def _example(decimals: int) -> str:
    return "1250" if decimals == 0 else "45 or 1,250." + "50".ljust(decimals, "0")


def read_pence(text: str, wanted: str = "a price") -> int:
    """Sterling as typed: "£45", "45.00", "1,250", "£1,250.50", "25p", "GBP 45". Raises InputError."""
    words = text.strip()
    if _SHILLINGS.fullmatch(words.removeprefix("£")):
        raise InputError(f"{words} is shillings; write pounds and pence, as 2.25.")
    if re.fullmatch(r"[0-9]+ ?[pP]", words):
        return read_amount(words[:-1], 0, wanted)
    bare = re.sub(r"^GBP ?|^£ ?| ?GBP$", "", words, count=1, flags=re.IGNORECASE)
    if words[:1] in ("-", "−") or bare[:1] in ("-", "−"):
        raise InputError(f"{wanted[:1].upper()}{wanted[1:]} cannot be negative; {words} was given.")
    return read_amount(bare, 2, wanted)


def pounds(pence: int) -> str:
    """£1,250.50; a loss is written -£50.00."""
    return f"{'-' if pence < 0 else ''}£{abs(pence) // 100:,}.{abs(pence) % 100:02d}"


def marked(pence: int) -> str:
    """As a dealer marks it: £45, £45.50, 50p."""
    if 0 < pence < 100:
        return f"{pence}p"
    return pounds(pence).removesuffix(".00")


def plain(minor: int, decimals: int = 2) -> str:
    """1250.50, for a file or a sum: no sign of the currency, no commas."""
    if decimals == 0:
        return str(minor)
    unit = 10**decimals
    return f"{'-' if minor < 0 else ''}{abs(minor) // unit}.{abs(minor) % unit:0{decimals}d}"


def half_up(exact: Fraction | Decimal | int) -> int:
    """The nearest whole number, a half going away from nought (VATREC12030)."""
    value = Fraction(exact)
    nearest = (2 * abs(value.numerator) + value.denominator) // (2 * value.denominator)
    return -nearest if value < 0 else nearest


def percent_of(amount: int, percent: Decimal | Fraction | int) -> int:
    """A percentage of an amount, rounded half up once."""
    return half_up(amount * Fraction(percent) / 100)


def share(total: int, weights: Sequence[int | Fraction]) -> tuple[int, ...]:
    """Share a total in proportion to the weights so that the parts add up to it exactly.

    Each part is floored; the pence left over go one each to the largest remainders, ties to the
    earlier line. Raises InputError for a negative total or weight, and when every weight is nil.
    """
    exact = [Fraction(weight) for weight in weights]
    if total < 0 or any(weight < 0 for weight in exact):
        raise InputError("A sum and the prices it is shared by cannot be negative.")
    whole = sum(exact)
    if whole == 0:
        raise InputError("There is nothing to share by; give at least one price above nil.")
    parts = [total * weight / whole for weight in exact]
    shares = [part.numerator // part.denominator for part in parts]
    remainders = [part - floor for part, floor in zip(parts, shares, strict=True)]
    by_remainder = sorted(range(len(parts)), key=lambda line: -remainders[line])
    for line in by_remainder[: total - sum(shares)]:
        shares[line] += 1
    return tuple(shares)


def without_discount(prices: Sequence[int], discount: int) -> tuple[int, ...]:
    """The prices of several lines after one discount in money, shared by price to the penny.

    Raises InputError when the discount is more than the prices together.
    """
    if discount < 0 or discount > sum(prices):
        raise InputError(f"A discount must lie between nothing and {pounds(sum(prices))}.")
    if discount == 0:
        return tuple(prices)
    return tuple(price - off for price, off in zip(prices, share(discount, prices), strict=True))


def chain_discount(price: int, percents: Sequence[Decimal | int]) -> int:
    """A price after percentages taken one after another, rounded half up once at the end."""
    left = Fraction(price)
    for percent in percents:
        if not 0 <= percent <= 100:
            raise InputError(f"A discount of {percent} % is not possible; write 0 to 100.")
        left *= (100 - Fraction(percent)) / 100
    return half_up(left)
