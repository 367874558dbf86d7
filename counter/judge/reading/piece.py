"""A piece of the line on its way to becoming an observation, and the rules that cut pieces out."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from counter.reference.vocabulary import Vocabulary

#: Kinds of pieces that are no observations: passed over, a pause, not understood, a bare figure.
FILLER, PAUSE, UNREAD, NUMBER = "filler", "pause", "unread", "number"

#: The value of a filler or unread word that may say where on the stamp a fault is.
WHERE = "where"


@dataclass(slots=True)
class Piece:
    """What was made of the characters `start` to `end`.

    `kind` is an observation's kind or one that only the reader knows (FILLER, PAUSE, UNREAD, NUMBER,
    and the cues that `context` resolves). `other` is a second reading the context may prefer.
    """

    kind: str
    value: str
    words: str
    start: int
    end: int
    slip: bool = False
    other: Piece | None = None

    def turned(self, kind: str, value: str | None = None, words: str | None = None) -> Piece:
        """The same characters, taken as something else."""
        value = self.value if value is None else value
        return replace(self, kind=kind, value=value, words=words or self.words, other=None)


Make = Callable[["re.Match[str]", Vocabulary], "list[Piece] | None"]


@dataclass(frozen=True, slots=True)
class Rule:
    """A pattern tried where a word begins with one of `cues` (its leading letters, or a figure or
    sign); `make` gives the pieces, or None when the figures make no sense."""

    cues: tuple[str, ...]
    pattern: re.Pattern[str]
    make: Make


#: The word "any" cues: a figure or fraction, or any run of letters.
DIGITS, LETTERS = "0", "a"

#: What must follow a pattern so that it does not end inside a word.
END = r"(?![^\W_])"

#: Small numbers in words: one to ten.
COUNTED_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
COUNTS = {str(number): number for number in range(1, 100)}
COUNTS |= {word: number for number, word in enumerate(COUNTED_WORDS, 1)} | {"twelve": 12}
COUNT = r"(?:[0-9]{1,2}|" + "|".join((*COUNTED_WORDS, "twelve")) + ")"


def rule(cues: str, pattern: str, make: Make) -> Rule:
    """A rule; the pattern is verbose and closed with END."""
    return Rule(tuple(cues.split()), re.compile(f"(?:{pattern}){END}", re.VERBOSE), make)


def one(found: re.Match[str], kind: str, value: str, words: str) -> list[Piece]:
    """The whole match as a single piece."""
    return [Piece(kind, value, words, found.start(), found.end())]


def span(found: re.Match[str], group: int | str, kind: str, value: str, words: str = "") -> Piece:
    """One group of the match as a piece."""
    return Piece(kind, value, words, found.start(group), found.end(group))


def filled(pieces: Iterable[Piece]) -> list[Piece]:
    """The pieces in order, without those that cover nothing."""
    return sorted((piece for piece in pieces if piece.end > piece.start), key=lambda p: p.start)
