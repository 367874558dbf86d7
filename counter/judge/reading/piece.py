"""A piece of the line on its way to becoming an observation, and the rules that cut pieces out."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from counter.judge.observation import KINDS, Said
from counter.reference.vocabulary import Vocabulary

#: Kinds of pieces that are no observations: passed over, a pause, not understood, a bare figure, and
#: what is understood and not used.
FILLER, PAUSE, UNREAD, NUMBER, NOTED = "filler", "pause", "unread", "number", "noted"

#: The value of a filler or unread word that may say where on the stamp a fault is.
WHERE = "where"
#: The value of an unread word that is plain English.
PLAIN = "plain"


@dataclass(slots=True)
class Piece:
    """What was made of the characters `start` to `end`.

    `kind` is an observation's kind or one that only the reader knows (those above, and the words of
    grammar: denial, doubt, hedge, choice, thing).
    """

    kind: str
    value: str
    words: str
    start: int
    end: int
    slip: bool = False
    said: Said = "is"
    stamp: str = ""

    def turned(self, kind: str, value: str | None = None, words: str | None = None) -> Piece:
        """The same characters, taken as something else."""
        value = self.value if value is None else value
        words = words or self.words
        return Piece(kind, value, words, self.start, self.end, self.slip, self.said, self.stamp)

    @property
    def seen(self) -> bool:
        """Whether this is an observation."""
        return self.kind in KINDS

    @property
    def silent(self) -> bool:
        """Whether this says nothing: a filler or a pause."""
        return self.kind in (FILLER, PAUSE)


Make = Callable[["re.Match[str]", Vocabulary], "list[Piece] | None"]


@dataclass(frozen=True, slots=True)
class Rule:
    """A pattern tried where a word begins with one of `cues` (its leading letters, or a figure or
    sign); `make` gives the pieces, or None when the figures make no sense. `cost` names a circumstance
    of the cost of a figure, or is ""."""

    cues: tuple[str, ...]
    pattern: re.Pattern[str]
    make: Make
    cost: str = ""


#: The word "any" cues: a figure or fraction, or any run of letters.
DIGITS, LETTERS = "0", "a"

#: What must follow a pattern so that it does not end inside a word.
END = r"(?![^\W_])"

#: Small numbers in words: one to ten.
COUNTED_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
COUNTS = {str(number): number for number in range(1, 1000)}
COUNTS |= {word: number for number, word in enumerate(COUNTED_WORDS, 1)} | {"twelve": 12}
COUNT = r"(?:[0-9]{1,2}|" + "|".join((*COUNTED_WORDS, "twelve")) + ")"


def rule(cues: str, pattern: str, make: Make, cost: str = "") -> Rule:
    """A rule; the pattern is verbose and closed with END."""
    return Rule(tuple(cues.split()), re.compile(f"(?:{pattern}){END}", re.VERBOSE), make, cost)


def one(found: re.Match[str], kind: str, value: str, words: str) -> list[Piece]:
    """The whole match as a single piece."""
    return [Piece(kind, value, words, found.start(), found.end())]


def span(found: re.Match[str], group: int | str, kind: str, value: str, words: str = "") -> Piece:
    """One group of the match as a piece."""
    return Piece(kind, value, words, found.start(group), found.end(group))


def filled(pieces: Iterable[Piece]) -> list[Piece]:
    """The pieces in order, without those that cover nothing."""
    return sorted((piece for piece in pieces if piece.end > piece.start), key=lambda p: p.start)
