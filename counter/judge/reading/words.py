"""What a word may be by itself, whatever line it stands in: looked up once a word and kept."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass
from functools import lru_cache

from counter.judge.reading import amounts, days, figures
from counter.judge.reading.lettering import CUES
from counter.judge.reading.piece import DIGITS, FILLER, LETTERS, PLAIN, UNREAD, WHERE, Rule
from counter.reference.vocabulary import Node, Vocabulary

_LEAD = re.compile(r"[^\W\d_]+")
_COMMON = 2000  # so many words are of every day; rarer ones are seldom meant plainly at a stall

_RULES: dict[str, list[Rule]] = defaultdict(list)
for _rule in (*days.RULES, *amounts.RULES, *figures.RULES):
    for _cue in _rule.cues:
        _RULES[_cue].append(_rule)


@dataclass(slots=True)
class LoneWord:
    """`node`: the phrases that begin with it; `rules`: the patterns that may; `letters`: whether check
    letters may begin here; `cue`: whether it calls for them. `kind`, `value`: what it is when it is
    passed over or left, and `trade`, `plain` what that costs among its like."""

    node: Node | None
    rules: list[Rule]
    letters: bool
    cue: bool
    kind: str
    value: str
    trade: float
    plain: float


@lru_cache(maxsize=16384)
def lone_word(vocabulary: Vocabulary, text: str, quoted: bool) -> LoneWord:
    """What a word may be; `quoted`: it is typed with an apostrophe inside, as plain English is."""
    kind, value, trade, plain = _left(vocabulary, text, quoted)
    ascii_word = text.isascii() and text.isalpha()
    return LoneWord(
        vocabulary.tree.next.get(text),
        _rules(text),
        ascii_word and len(text) in (1, 2, 4),
        text in CUES,
        kind,
        value,
        trade,
        plain,
    )


def sign_rules(sign: str) -> list[Rule]:
    """The patterns that may begin with a sign."""
    return _RULES.get(sign, [])


def _rules(text: str) -> list[Rule]:
    if not text[0].isalpha():
        return _RULES.get(DIGITS if text[0].isnumeric() else text[0], [])
    lead = _LEAD.match(text)[0]  # type: ignore[index]
    rules = _RULES.get(lead, [])
    return rules + _RULES[LETTERS] if len(lead) < 4 else rules  # a stock number, an office's code


def _left(vocabulary: Vocabulary, text: str, quoted: bool) -> tuple[str, str, float, float]:
    """A word passed over, plain English, or not understood: kind, value, and the two costs."""
    grammar = vocabulary.grammar
    where = WHERE if text in vocabulary.where else ""
    if text in vocabulary.fillers or where:
        kind = FILLER if text in vocabulary.fillers else UNREAD
        return kind, where, grammar.cost("filler"), grammar.costs["filler", "in plain English"]
    english = quoted or text in grammar.english
    value = PLAIN if english else ""
    if not text.isalpha():
        return UNREAD, value, grammar.cost("figures"), grammar.costs["figures", "in plain English"]
    of = "plain" if english else "unknown"
    if not vocabulary.stands_alone(text):
        return UNREAD, value, grammar.cost(of), grammar.costs[of, "in plain English"]
    node = vocabulary.tree.next.get(text)
    everyday = "everyday" if grammar.english.get(text, _COMMON) < _COMMON else "common"
    if node and node.means and node.means[0].kind == "colour":
        everyday = "colour"
    plain = grammar.costs["phrase", f"{everyday} in plain English"] if english else grammar.cost(of)
    return UNREAD, value, grammar.cost(of), plain
