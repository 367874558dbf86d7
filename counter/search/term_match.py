"""What a typed word can mean in this stock: the tokens it matches, how well, and what it weighs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import log2

from counter.describe.names import Names
from counter.search.document import document_words, issue_token
from counter.search.postings import Postings
from counter.search.query import Term
from counter.search.tokenizer import ALIASES, pieces
from counter.search.vocabulary import Vocabulary

EXACT, BEGUN, SLIP = 3, 2, 1
_HEAVIEST = 7
_LONGEST_RUN = 24


@dataclass(frozen=True, slots=True)
class Meaning:
    """A word's meaning. `tokens` gives each matching token's id its grade; `worth` the weight of
    the match for every line, bit-sliced; `weight` the most it can be worth."""

    text: str
    tokens: dict[int, int]
    worth: tuple[int, ...]
    weight: int
    numbered: int = 0  # lines whose stock number was meant
    numbered_near: int = 0  # lines whose stock number may be meant


class Meanings:
    """Finds the meanings of typed words in the tokens of the stock."""

    def __init__(self, postings: Postings, vocabulary: Vocabulary, names: Names) -> None:
        self._postings = postings
        self._vocabulary = vocabulary
        self._issues: dict[str, list[int]] = {}
        for issue, name in names.items():
            token = postings.id_of(issue_token(issue))
            for word in {word for words in name.also for word in document_words(words)}:
                self._issues.setdefault(word, []).append(token)
                vocabulary.add(word, sort_later=True)

    def _tokens(self, forms: Iterable[str], grade: int) -> dict[int, int]:
        """The tokens of these forms that some line has: words of the lines, and of the issues."""
        found: dict[int, int] = {}
        for form in forms:
            if (token := self._postings.known(form)) is not None:
                found[token] = grade
            for token in self._issues.get(form, ()):
                if self._postings.used(token):
                    found[token] = grade
        return found

    def graded(self, asked: Term) -> list[tuple[str, dict[int, int]]]:
        """The word, or the words run together in it, each with its matching tokens and grades."""
        if len(asked.tokens) > 1 or "=" in asked.tokens[0]:
            return [(asked.text, self._compound(asked))]
        word = asked.tokens[0]
        found = self._exact(word) | self._exact(asked.text)
        if asked.open or (not found and len(word) > 1):
            found = self._begun(word) | found
        if not any(grade == EXACT for grade in found.values()) and not (asked.open and found):
            return self._slips_or_run(asked, found)
        return [(asked.text, found)]

    def _compound(self, asked: Term) -> dict[int, int]:
        """A plate, a strip of three: the whole meaning is exact, its kind alone is a near miss."""
        *kinds, whole = asked.tokens
        begun = self._begun(whole) if asked.open else {}
        return self._tokens(kinds, SLIP) | begun | self._tokens((whole,), EXACT)

    def _exact(self, word: str) -> dict[int, int]:
        """Tokens that are this word, its alias, plate or lettering; a cancel's colour nearly."""
        forms = [word, *ALIASES.get(word, ())]
        near = [f"k={form}" for form in forms]
        if word.isdecimal():
            forms.append(f"pl={int(word)}" if len(word) < 5 else word)
        elif len(word) in (2, 4) and word.isalpha():
            forms.append(f"={word}")
        return self._tokens(near, SLIP) | self._tokens(forms, EXACT)

    def _begun(self, word: str) -> dict[int, int]:
        return self._of_words(self._vocabulary.beginning(word), BEGUN)

    def _slips_or_run(self, asked: Term, begun: dict[int, int]) -> list[tuple[str, dict[int, int]]]:
        """One slip of the finger; else words run together; else two slips."""
        word = asked.tokens[0]
        slips = self._vocabulary.slips(word)
        near = self._of_words([each for each, far in slips if far == 1], BEGUN)
        if not near and not begun and (run := self._run(asked.text, asked.open)):
            return run
        far = {} if near else self._of_words([each for each, _ in slips], SLIP)
        if asked.open and not near:
            far |= self._of_words(self._vocabulary.begun_with_a_slip(word), SLIP)
        return [(asked.text, far | near | begun)]

    def _of_words(self, words: list[str], grade: int) -> dict[int, int]:
        return self._tokens((form for word in words for form in ALIASES.get(word, (word,))), grade)

    def _run(self, text: str, open: bool, parts: int = 3) -> list[tuple[str, dict[int, int]]]:
        """Words run together ("1dblack", "pl6kc") taken apart, if every part is known."""
        if parts < 2 or len(text) > _LONGEST_RUN:
            return []
        for at in range(len(text) - 1, 0, -1):
            left = self._part(text[:at], False)
            if not left:
                continue
            rest = text[at:]
            if right := self._part(rest, open):
                return [(text[:at], left), (rest, right)]
            if more := self._run(rest, open, parts - 1):
                return [(text[:at], left), *more]
        return []

    def _part(self, text: str, open: bool) -> dict[int, int]:
        """The exact meaning of a part of a run; single letters and figures mean nothing there."""
        if len(text) < 2:
            return {}
        found = pieces(text)
        if len(found) != 1 or found[0].end - found[0].start != len(text):
            return {}
        asked = Term(text, found[0].tokens, open)
        if len(asked.tokens) > 1 or "=" in asked.tokens[0]:
            return self._compound(asked)
        exact = self._exact(asked.tokens[0])
        return exact | self._begun(asked.tokens[0]) if open and len(text) > 2 else exact

    def weigh(
        self, text: str, tokens: dict[int, int], size: int, numbered: int = 0, near: int = 0
    ) -> Meaning:
        """The meaning with its worth for every line: rare words weigh more than common ones."""
        rows = {EXACT: numbered, BEGUN: near, SLIP: 0}
        for grade in rows:
            ids = [token for token, each in tokens.items() if each == grade]
            rows[grade] |= self._postings.lines(ids)
        rows[BEGUN] ^= rows[BEGUN] & rows[EXACT]
        rows[SLIP] ^= rows[SLIP] & (rows[EXACT] | rows[BEGUN])
        weight = _weight((rows[EXACT] or rows[BEGUN] or rows[SLIP]).bit_count(), size)
        worth = [0, 0, 0]
        for grade, row in rows.items():
            value = max(1, weight - (EXACT - grade))
            for place in range(3):
                if row and value >> place & 1:
                    worth[place] |= row
        return Meaning(text, tokens, tuple(worth), weight, numbered, near)


def _weight(count: int, size: int) -> int:
    """3 for a word in most lines up to 7 for one in a few, a step for every factor of four."""
    rarity = log2((size + 1) / max(1, count)) / 2
    return min(_HEAVIEST, 3 + int(rarity))
