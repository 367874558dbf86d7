"""Colours told apart: a name is taken to pieces, and two names are fitted to each other."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from counter.reference.stamps_error import ErrorModel

Part = tuple[str, ...]  # hue words of one colour, the main one last

_AND = re.compile(r"\s+and\s+|\s*\+\s*")
_WORD = re.compile(r"[a-z]+")
#: Shades that say lighter or darker; the same thing by two words.
_PALE = frozenset({"pale", "light", "milky"})
_DEEP = frozenset({"deep", "dark", "intense", "full", "rich"})


@dataclass(frozen=True, slots=True)
class _Name:
    """A colour's name taken apart: the colours printed, the paper's, its shade and its own name."""

    parts: tuple[Part, ...]
    paper: Part
    shade: str
    own: frozenset[str]


def _plain(name: str) -> str:
    return name.casefold().replace("-", " ")


class Palette:
    """Colour names taken apart by the error model's hue words; what was worked out is kept."""

    def __init__(self, errors: ErrorModel) -> None:
        self.errors = errors
        self._name = lru_cache(maxsize=4096)(self._take_apart)
        self.fit = lru_cache(maxsize=65536)(self._fit)

    def _hue(self, word: str) -> str:
        """The hue of a word: "reddish" is red, "bluish" blue; "" for a shade or a stray word."""
        hues = self.errors.hues
        if word in hues:
            return word
        stem = word.removesuffix("ish")
        for each in (stem, stem + "e", stem[:-1]):
            if stem != word and each in hues:
                return each
        return ""

    def _take_apart(self, name: str) -> _Name:
        """ "purple on blue" is purple, printed on blue; "tyrian plum" a name of its own."""
        printed, _, paper = name.casefold().partition(" on ")
        parts = (self._hues(each) for each in _AND.split(printed))
        words = frozenset(_WORD.findall(printed))
        shade = "pale" if words & _PALE else "deep" if words & _DEEP else ""
        return _Name(
            tuple(part for part in parts if part),
            self._hues(paper),
            shade,
            words & self.errors.own_names,
        )

    def _hues(self, words: str) -> Part:
        return tuple(hue for word in _WORD.findall(words) if (hue := self._hue(word)))

    def main(self, name: str) -> str:
        """The short name of a colour: its hue words without the shade ("deep red-brown": red-brown)."""
        return " and ".join("-".join(part) for part in self._name(name).parts)

    def families(self, name: str) -> tuple[str, ...]:
        """The family of each printed colour's main hue."""
        return tuple(self.errors.hues[part[-1]] for part in self._name(name).parts)

    def _fit(self, seen: str, listed: str) -> float:
        """How likely a stamp listed as `listed` is called `seen`, from nearly 0 to 1."""
        fits = self.errors.fits
        if _plain(seen) == _plain(listed):
            return fits["same words"]
        ours, theirs = self._name(seen), self._name(listed)
        if not ours.parts or not theirs.parts:
            return fits["far apart"]
        fit = self._fit_printed(ours, theirs)
        if (ours.own - theirs.own) & self.errors.proper_names:
            return min(fit, fits["a proper name"])
        if ours.own - theirs.own:
            fit = min(fit, fits["a name of its own"])  # nothing else is called so
        elif theirs.own - ours.own:
            fit = min(fit, fits["short of its name"])
        if ours.own and ours.own == theirs.own and self.families(seen) == self.families(listed):
            fit = max(fit, fits["same hues"])  # emerald and emerald-green
        if fit >= fits["short of its name"]:  # a shade tells only between stamps of that colour
            fit *= self._fit_shade(ours.shade, theirs.shade)
        return max(
            fit, fits["far apart"] if self._may_look(seen, listed) else fits["black by another name"]
        )

    def _may_look(self, seen: str, listed: str) -> bool:
        """Whether a stamp so listed may ever look so: black takes no other colour."""
        return self.families(listed) != ("black",) or "black" in self.families(seen)

    def _fit_printed(self, ours: _Name, theirs: _Name) -> float:
        extra = (theirs.paper,) if theirs.paper else ()
        each_of_ours = [
            max(self._fit_parts(part, other) for other in (*theirs.parts, *extra))
            for part in ours.parts
        ]
        fit = min(each_of_ours)
        if ours.paper:
            same = bool(theirs.paper) and ours.paper[-1] == theirs.paper[-1]
            fit *= 1.0 if same else self.errors.fits["another paper"]
        if len(ours.parts) < len(theirs.parts):
            fit *= self.errors.fits["one of two colours"]
        if len(ours.parts) > len(theirs.parts) + len(extra):
            fit *= self.errors.fits["shares a hue"]
        return fit

    def _fit_shade(self, ours: str, theirs: str) -> float:
        if ours == theirs:
            return 1.0
        if not ours or not theirs:
            return self.errors.fits["shade said" if ours else "shade unsaid"]
        return self.errors.fits["other shade"]

    def _fit_parts(self, seen: Part, listed: Part) -> float:
        fits, hues = self.errors.fits, self.errors.hues
        if seen == listed:
            return fits["same hues"]
        if seen[-1] == listed[-1]:
            return fits["same main hue" if len(seen) < len(listed) else "longer name"]
        if set(seen) < set(listed):
            return fits["one of its hues"]
        if set(seen) & set(listed):
            return fits["shares a hue"]
        ours, theirs = hues[seen[-1]], hues[listed[-1]]
        if ours == theirs:
            return fits["same family"]
        change = self.errors.colour_changes.get((theirs, ours))
        if change:
            return change.share
        return fits["black by another name" if theirs == "black" else "far apart"]
