"""Read a strength as it stands on a bottle: "3 %", "10 vol", "6% w/w", "0.9 mol/L", "old bottle"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import cast

from counter.values.errors import InputError
from counter.values.strength import Basis, Scale, StrengthReading

_EXAMPLES = "write it like 3 % w/v, 10 vol, 6 % w/w or 0.9 mol/L, or say old bottle"
_UNKNOWN = re.compile(
    r"\b(old|opened|unknown|not known|no label|unlabell?ed|faded|expired|out of date|illegible)\b|\?"
)
_FILLER = re.compile(
    r"\b(hydrogen|peroxide|h2o2|solution|strength|about|approx|fresh|bottle|hair|pharmacy|of|stabili[sz]ed"
    r"|liquid|cream|developer|antiseptic|disinfectant|first aid|topical|bp|b\.p|usp|ph\.? ?eur|eur)\b"
)
_PART = re.compile(
    r"(?P<amount>\d{1,6}(?:\.\d{1,6})?|\.\d{1,6})\s*-?\s*(?:"
    r"(?P<percent_vv>%?\s*\(?v/v\)?)"
    r"|(?P<percent_wv>%?\s*\(?[wm]/v\)?|g\s?/\s?100\s?ml\b|g in 100 ml\b)"
    r"|(?P<percent_ww>%?\s*\(?(?:w/w|m/m|by weight)\)?)"
    r"|(?P<grams_per_litre>g\s?/\s?l\b)"
    r"|(?P<percent>%)"
    r"|(?P<volume>volumes?\b|vols?\b\.?|v\b)"
    r"|(?P<mol_per_litre>mol\s?/\s?l\b|mol per lit(?:re|er)\b|molar\b|m\b))"
)


@dataclass(frozen=True, slots=True)
class Label:
    """A strength as typed: what stands on the bottle, or `unknown` for an old or unlabelled one.

    `parts` are (amount, basis); a label may give the same strength twice ("6 % (20 vol)").
    """

    text: str
    parts: tuple[tuple[float, Basis], ...] = ()
    unknown: bool = False

    def readings(self, scale: Scale) -> tuple[StrengthReading, ...]:
        """Every way to read it, strongest first; none when the strength is unknown."""
        if self.unknown:
            return ()
        found = [each for amount, basis in self.parts for each in scale.readings(amount, basis)]
        return tuple(sorted(found, key=lambda each: -each.strength.percent_wv))


def read_label(text: str) -> Label:
    """Read a strength as typed; raises InputError saying what could not be understood."""
    plain = _plain(text)
    if not plain:
        raise InputError(f"No strength was given; {_EXAMPLES}.")
    if _UNKNOWN.search(plain):
        return Label(text.strip(), unknown=True)
    parts: list[tuple[float, Basis]] = []
    rest = plain
    for match in _PART.finditer(plain):
        parts.append(_part(float(match["amount"]), match.lastgroup or "", text))
        rest = rest.replace(match[0], " ", 1)
    left = _FILLER.sub(" ", rest).strip(" ()/,.=;:")
    if not parts or left:
        raise InputError(f"The strength {text.strip()!r} cannot be read; {_EXAMPLES}.")
    return Label(text.strip(), tuple(parts))


def _plain(text: str) -> str:
    """Lower case, one kind of per cent sign, decimal points, no double spaces."""
    plain = text.casefold().replace("½", ".5").replace("\u00a0", " ")
    plain = re.sub(r"per\s?cent\b\.?", "%", plain)
    plain = re.sub(r"(?<=\d),(?=\d)", ".", plain)
    return " ".join(plain.split())


def _part(amount: float, unit: str, text: str) -> tuple[float, Basis]:
    """An amount and what it is reckoned by; `unit` names the group of _PART that it matched."""
    if unit == "percent_vv":
        raise InputError(f"Peroxide is not sold by v/v ({text.strip()!r}); {_EXAMPLES}.")
    if unit == "grams_per_litre":
        return amount / 10, "percent_wv"
    return amount, cast(Basis, unit)
