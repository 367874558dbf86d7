"""Postage exactly: old pence with their halves and farthings, shillings, and new pence.

An amount is a Fraction of pence in its own unit: "d" old pence (240 to the pound, to 14 February
1971) or "p" new pence. Ounces are Fractions too, so that no step is missed by a rounding.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from counter.values.errors import InputError

Unit = Literal["d", "p"]

_PARTS = {Fraction(1, 4): "¼", Fraction(1, 3): "⅓", Fraction(1, 2): "½", Fraction(2, 3): "⅔"}
_PARTS |= {Fraction(3, 4): "¾"}
_SIGNS = {sign: part for part, sign in _PARTS.items()}
_WHOLE = r"\d{1,9}"  # more figures are a slip of the hand
_NUMBER = rf"(?:{_WHOLE}(?:\.{_WHOLE})?\s*[¼⅓½⅔¾]?|[¼⅓½⅔¾]|{_WHOLE}\s+\d/\d|\d/\d)"
_FORMS = (
    re.compile(
        rf"(?=.)(?:£\s*(?P<pounds>{_NUMBER}))?\s*(?:(?P<shillings>{_WHOLE})\s*s\.?)?"
        rf"\s*(?:(?P<pence>{_NUMBER})\s*d\.?)?"
    ),
    re.compile(rf"(?P<shillings>{_WHOLE})\s*s\.?\s*(?P<pence>{_NUMBER})"),
    re.compile(rf"(?P<shillings>{_WHOLE})/(?:-|(?P<pence>{_NUMBER})d?)"),
    re.compile(rf"(?P<new>{_NUMBER})\s*p\.?"),
)


@dataclass(frozen=True, slots=True)
class Postage:
    """An amount of postage: pence of a unit."""

    pence: Fraction
    unit: Unit

    def words(self) -> str:
        """As the trade writes it: ½d, 1½d, 2s 6d, £1, 2½p."""
        if self.unit == "p":
            return f"{number_words(self.pence)}p"
        whole = self.pence.numerator // self.pence.denominator
        if whole < 12:  # most are: spared the division of fractions
            return f"{number_words(self.pence)}d"
        pounds, shillings = whole // 240, whole % 240 // 12
        pence = self.pence - whole + whole % 12
        said = [f"£{pounds}"] if pounds else []
        said += [f"{shillings}s"] if shillings else []
        said += [f"{number_words(pence)}d"] if pence else []
        return " ".join(said)


def number_words(number: Fraction) -> str:
    """1½, ¼, 3; what has no sign of its own is written 2.2 (or as a fraction, 1 5/7)."""
    if number.denominator == 1:
        return str(number.numerator)
    whole = number.numerator // number.denominator
    part = number - whole
    if part in _PARTS:
        return f"{whole or ''}{_PARTS[part]}"
    decimal = f"{float(number):.3f}".rstrip("0")  # shown only; nothing is reckoned with it
    return decimal if Fraction(decimal) == number else f"{whole or ''} {part}".strip()


def read_number(text: str) -> Fraction:
    """A number with its fraction: "0.5", "½", "1½", "1 1/2", "1/2"; raises InputError."""
    found = re.fullmatch(rf"({_WHOLE}(?:\.{_WHOLE})?|\.{_WHOLE})?\s*([¼⅓½⅔¾]|\d/[1-9])?", text.strip())
    if not found or not (found[1] or found[2]) or ("." in (found[1] or "") and found[2]):
        raise InputError(f"{text!r} is not a number; write it like 0.5, ½ or 1½.")
    part = found[2] or "0"
    return Fraction(found[1] or 0) + (_SIGNS[part] if part in _SIGNS else Fraction(part))


@lru_cache(maxsize=2048)
def read_postage(text: str) -> Postage:
    """Postage as typed: "2d", "1½d", "2s6d", "1/-", "£1", "2½p", "2 x 1d", "1d + 4d".

    Raises InputError for anything else, and for old and new pence added together.
    """
    total: Postage | None = None
    for part in re.split(r"\s*(?:\+|&| and )\s*", text.strip().lower()):
        each = _read_times(part, text)
        if total and total.unit != each.unit:
            raise InputError(f"{text!r} adds old and new pence; give one or the other.")
        total = Postage(each.pence + (total.pence if total else 0), each.unit)
    return total or _read_times("", text)


def _read_times(part: str, whole: str) -> Postage:
    often = re.match(rf"({_WHOLE})\s*x", part)
    times, value = (int(often[1]), part[often.end() :]) if often else (1, part)
    for form in _FORMS:
        if found := form.fullmatch(value.strip()):
            named = {name: read_number(each) for name, each in found.groupdict().items() if each}
            if "new" in named:
                return Postage(times * named["new"], "p")
            pence = 240 * named.get("pounds", 0) + 12 * named.get("shillings", 0)
            return Postage(times * Fraction(pence + named.get("pence", 0)), "d")
    raise InputError(f"{whole!r} is not an amount of postage; write it like 1d, 2s6d or 2½p.")


def plain_number(number: Fraction) -> int | float:
    """For JSON: whole numbers as such; halves and quarters of a penny are exact in binary."""
    return number.numerator if number.denominator == 1 else float(number)
