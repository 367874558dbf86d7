"""Colours told apart: a name is taken to pieces, and two names are fitted to each other."""

from __future__ import annotations

import re
from functools import lru_cache

from counter.reference.stamps_error import ErrorModel

Part = tuple[str, ...]  # hue words of one colour, the main one last

_AND = re.compile(r"\s+and\s+|\s*\+\s*")
_WORD = re.compile(r"[a-z]+")


class Palette:
    """Colour names taken apart by the error model's hue words; what was worked out is kept."""

    def __init__(self, errors: ErrorModel) -> None:
        self.errors = errors
        self._parts = lru_cache(maxsize=4096)(self._take_apart)
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

    def _take_apart(self, name: str) -> tuple[tuple[Part, ...], Part]:
        """The colours printed, and the paper's: "purple on blue" is ((purple,),), (blue,)."""
        printed, _, paper = name.casefold().partition(" on ")
        parts = (self._hues(each) for each in _AND.split(printed))
        return tuple(part for part in parts if part), self._hues(paper)

    def _hues(self, words: str) -> Part:
        return tuple(hue for word in _WORD.findall(words) if (hue := self._hue(word)))

    def main(self, name: str) -> str:
        """The short name of a colour: its hue words without the shade ("deep red-brown": red-brown)."""
        parts, _ = self._parts(name)
        return " and ".join("-".join(part) for part in parts)

    def families(self, name: str) -> tuple[str, ...]:
        """The family of each printed colour's main hue."""
        return tuple(self.errors.hues[part[-1]] for part in self._parts(name)[0])

    def _fit(self, seen: str, listed: str) -> float:
        """How likely a stamp listed as `listed` is called `seen`, from nearly 0 to 1."""
        if seen == listed:
            return self.errors.fits["same words"]
        (ours, _), (theirs, paper) = self._parts(seen), self._parts(listed)
        if not ours or not theirs:
            return self.errors.fits["far apart"]
        extra = (paper,) if paper else ()
        each_of_ours = [
            max(self._fit_parts(part, other) for other in (*theirs, *extra)) for part in ours
        ]
        fit = min(each_of_ours)
        if len(ours) < len(theirs):
            fit *= self.errors.fits["one of two colours"]
        if len(ours) > len(theirs) + len(extra):
            fit *= self.errors.fits["shares a hue"]
        return fit

    def _fit_parts(self, seen: Part, listed: Part) -> float:
        fits, hues = self.errors.fits, self.errors.hues
        if seen == listed:
            return fits["same hues"]
        if seen[-1] == listed[-1]:
            return fits["same main hue"]
        if set(seen) & set(listed):
            return fits["shares a hue"]
        ours, theirs = hues[seen[-1]], hues[listed[-1]]
        if ours == theirs:
            return fits["same family"]
        change = self.errors.colour_changes.get((theirs, ours))
        return change.share if change else fits["far apart"]
