"""The distinct words of the stock: which a typed word begins, which it is a slip of.

Fuzzy matching happens here, over some thousands of distinct words, never over the lines.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator

from rapidfuzz import process
from rapidfuzz.distance import OSA

from counter.search.tokenizer import ALIASES

_MOST_BEGINNINGS = 400
_MOST_SLIPS = 8


class Vocabulary:
    """Words kept sorted for beginnings and by length for slips. Aliases count as words."""

    def __init__(self) -> None:
        self._words: list[str] = sorted(ALIASES)
        self._known = set(ALIASES)
        self._sorted = True
        self._spelt: dict[int, list[str]] = {}
        self._heads: dict[int, dict[str, list[str]]] = {}

    def add(self, word: str, *, sort_later: bool = False) -> None:
        """Take a word in; with `sort_later` many at once cost nothing until the next question."""
        if word in self._known:
            return
        self._known.add(word)
        if sort_later or not self._sorted:
            self._words.append(word)
            self._sorted = False
        else:
            insort(self._words, word)
        self._spelt.clear()
        self._heads.clear()

    def __contains__(self, word: str) -> bool:
        return word in self._known

    def parts(self) -> Iterator[tuple[str, list[str]]]:
        """The words in order, as one part."""
        self._sort()
        yield "words", self._words

    def take(self, name: str, part: list[str]) -> None:
        """Take over what `parts` gave."""
        self._words, self._known, self._sorted = part, set(part), True
        self._spelt.clear()
        self._heads.clear()

    def _sort(self) -> None:
        if not self._sorted:
            self._words.sort()
            self._sorted = True

    def beginning(self, start: str) -> list[str]:
        """The words that begin with these letters, without the word itself."""
        self._sort()
        first = bisect_left(self._words, start)
        found: list[str] = []
        for word in self._words[first : first + _MOST_BEGINNINGS]:
            if not word.startswith(start):
                break
            if word != start:
                found.append(word)
        return found

    def slips(self, word: str) -> list[tuple[str, int]]:
        """Words of letters that this may be a slip of, with the number of slips: nearest first."""
        length = len(word)
        if length < 3 or not word.isalpha():
            return []
        allowed = 1 if length < 5 else 2
        near = [
            each for size in range(length - allowed, length + allowed + 1) for each in self._of(size)
        ]
        found = process.extract(
            word, near, scorer=OSA.distance, processor=None, score_cutoff=allowed, limit=_MOST_SLIPS
        )
        # two slips must leave the first letter, or they make another word of it
        return [(each, far) for each, far, _ in found if far == 1 or each[0] == word[0]]

    def begun_with_a_slip(self, word: str) -> list[str]:
        """Words whose beginning, as long as what was typed so far, is one slip away from it."""
        length = len(word)
        if length < 4 or not word.isalpha():
            return []
        heads = self._heads_of(length)
        found = process.extract(
            word, list(heads), scorer=OSA.distance, processor=None, score_cutoff=1, limit=_MOST_SLIPS
        )
        return [each for head, _, _ in found for each in heads[head]]

    def _of(self, size: int) -> list[str]:
        if not self._spelt:
            spelt: dict[int, list[str]] = {0: []}
            for word in self._words:
                if word.isalpha():
                    spelt.setdefault(len(word), []).append(word)
            self._spelt = spelt
        return self._spelt.get(size, [])

    def _heads_of(self, length: int) -> dict[str, list[str]]:
        if length not in self._heads:
            heads: dict[str, list[str]] = {}
            for word in self._words:
                if len(word) > length and word.isalpha():
                    heads.setdefault(word[:length], []).append(word)
            self._heads[length] = heads
        return self._heads[length]
