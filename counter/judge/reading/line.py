"""The line cut into words and signs, and what the line as a whole tells each of them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

from counter.reference.vocabulary import Node, Vocabulary
from counter.values.typed import WORD, fold

#: A value in pence with a word behind it and no space between.
RUN_TOGETHER = re.compile(r"(?P<value>(?:[0-9]{1,2}½?|½)d)(?P<word>[a-z]{3,})")
_TOKEN = re.compile(rf"{WORD.pattern}|\S")
_JOINTS = frozenset(" \t\n\r\f\v\u00a0-./'")
_PAUSES = frozenset(",;:.()[]|/\"'-+&=*_")
_PAIR = re.compile(r"(?<![^\W_])[a-t][\s.\-/]?[a-l](?![^\W_])")
_GAUGE = re.compile(r"(?<![^\W_])(?:p|perf|perforated)[\s.]*1[0-9]|(?<![^\W_])1[0-9](?:½)?(?![^\W_])")


@dataclass(slots=True)
class Word:
    """A word of the line in its even form, or a sign, and where it stands."""

    text: str
    start: int
    end: int
    sign: bool = False
    apart: bool = False  # typed in capitals in a line of small letters


class Line:
    """A typed line: its words and signs, and the circumstances that bear on the costs."""

    def __init__(self, text: str, vocabulary: Vocabulary) -> None:
        self.text = text
        self.folded = fold(text)
        self.vocabulary = vocabulary
        self.tokens = self._tokens()
        self.starts = {token.start: number for number, token in enumerate(self.tokens)}
        self.after = self._joined()

    def _tokens(self) -> list[Word]:
        mixed = any(sign.islower() for sign in self.text)
        found: list[Word] = []
        for each in _TOKEN.finditer(self.folded):
            start, end = each.span()
            if not (each[0][0].isalnum()):
                found.append(Word(each[0], start, end, sign=True))
                continue
            run = RUN_TOGETHER.fullmatch(each[0])
            if run and self.vocabulary.stands_alone(run["word"]):
                found.append(Word(run["value"], start, start + run.end("value")))
                start += run.start("word")
            apart = mixed and self.text[start:end].isupper()
            found.append(Word(self.folded[start:end].replace("'", ""), start, end, apart=apart))
        return found

    def _joined(self) -> list[int]:
        """For each token the next word that a phrase may go on with, or -1."""
        after = [-1] * len(self.tokens)
        for number, token in enumerate(self.tokens):
            if token.sign:
                continue
            step = number + 1
            while step < len(self.tokens) and self.tokens[step].sign:
                step += 1
            if step < len(self.tokens) and self.tokens[step].start - token.end <= 3:
                between = self.folded[token.end : self.tokens[step].start]
                if _JOINTS.issuperset(between):
                    after[number] = step
        return after

    def end_token(self, end: int) -> int:
        """The number of the first token at or behind a place in the line."""
        number = self.starts.get(end)
        while number is None and end < len(self.folded):
            end += 1
            number = self.starts.get(end)
        return len(self.tokens) if number is None else number

    def is_pause(self, number: int) -> bool:
        """Whether a token is a sign that only parts words; outside the line there is one too."""
        if not 0 <= number < len(self.tokens):
            return True
        token = self.tokens[number]
        return token.sign and token.text in _PAUSES

    def node(self, number: int) -> Node | None:
        """Where the phrases go on that begin with a token."""
        return self.vocabulary.tree.next.get(self.tokens[number].text)

    def of_trade(self, number: int) -> bool:
        """Whether a token is a word of the trade, a figure, a pause or the end of the line."""
        if not 0 <= number < len(self.tokens):
            return True
        token = self.tokens[number]
        if token.sign or not token.text.isalpha():
            return True
        if token.text in self.vocabulary.fillers:
            return False
        node = self.vocabulary.tree.next.get(token.text)
        if node is not None:
            return not node.means or node.means[0].kind not in _GRAMMAR or bool(node.next)
        return token.text in _FIGURE_CUES or token.text in self.vocabulary.short_colours

    @cached_property
    def words(self) -> frozenset[str]:
        """Every word of the line."""
        return frozenset(token.text for token in self.tokens)

    @cached_property
    def lettered_value(self) -> bool:
        """Whether a value is named whose stamps have letters of two."""
        return any(each in _VALUES for each in self.words)

    @cached_property
    def unlettered(self) -> bool:
        """Whether the line names a stamp that has no letters."""
        return bool(self.words & self.vocabulary.grammar.unlettered) or self.before_stamps

    @cached_property
    def before_stamps(self) -> bool:
        """Whether a year before 1840 is named."""
        return bool(_EARLY.search(self.folded))

    @cached_property
    def lists_letters(self) -> bool:
        """Whether a multiple stands on the line, with two letterings or more."""
        return bool(self.words & _MULTIPLES) and len(_PAIR.findall(self.folded)) > 1

    @cached_property
    def cancel_named(self) -> bool:
        """Whether a cancel is named or the stamp is said to be used."""
        return bool(self.words & _CANCELS)

    @cached_property
    def gauge_named(self) -> bool:
        """Whether a gauge is given."""
        return bool(_GAUGE.search(self.folded))


_VALUES = frozenset({"1d", "2d", "½d", "1½d", "penny", "twopenny", "tuppenny", "twopence", "tuppence"})
_EARLY = re.compile(r"(?<![^\W_])(?:1[67][0-9]{2}|18[0-3][0-9])(?![^\W_])")
_MULTIPLES = frozenset({"pair", "pr", "strip", "block", "irregular", "multiple"})
_CANCELS = frozenset(
    ("mx", "cross", "maltese", "numeral", "cds", "duplex", "used", "tied", "cancel", "cancelled", "fu")
) | {"vfu", "gu", "pen", "numerals", "crosses", "postmark", "pmk", "mc"}
_FIGURE_CUES = frozenset({"pl", "plate", "plt", "perf", "p", "pf", "roul", "no", "num"})
_GRAMMAR = frozenset({"doubt", "choice", "hedge", "thing"})
