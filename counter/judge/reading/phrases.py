"""The known phrases at a word, and the word that was meant when it was mistyped."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from counter.judge.reading.line import Line
from counter.reference.vocabulary import Node, Phrase, Vocabulary

_SHORTEST, _LONGEST = 4, 24
_NO_SLIPS = frozenset(  # a town not listed is no mistyped town, "nor" no mistyped "not"
    {"town", "abroad", "denial", "doubt", "choice", "hedge", "thing", "noted", "subject"}
)
_NUMBER = re.compile(r"[a-g]?[0-9]{1,3}")


@dataclass(slots=True)
class Match:
    """What the words from token `first` up to token `end` (excluded) mean.

    `slip` when one was mistyped, `changed` by how many letters; `hole` is the number of a token inside
    that is a figure of its own ("numeral 131 in box of bars"), or -1.
    """

    means: tuple[Phrase, ...]
    end: int
    slip: bool = False
    changed: int = 0
    hole: int = -1


def phrases_at(line: Line, at: int) -> Iterator[Match]:
    """Every known phrase that begins with token number `at`, the shortest first."""
    node = line.node(at)
    if node:
        yield from _walk(line, at, node, 0)


def longest(line: Line, at: int) -> Match | None:
    """The longest phrase beginning with token number `at`, or None."""
    return next(reversed(list(phrases_at(line, at))), None)


def slips_at(line: Line, at: int) -> Match | None:
    """The one phrase that a word no dictionary has can have been meant for."""
    word, vocabulary = line.tokens[at].text, line.vocabulary
    if word in vocabulary.tree.next or word in vocabulary.grammar.english or "'" in word:
        return None
    if word in vocabulary.fillers or word in vocabulary.where:
        return None
    found = []
    for meant, changed in meant_by(vocabulary, word):
        best = next(reversed(list(_walk(line, at, vocabulary.tree.next[meant], changed))), None)
        if best and best.means[0].kind not in _NO_SLIPS and not _other_word(word, meant, best):
            found.append(best)
    far = max((match.end for match in found), default=-1)
    found = [match for match in found if match.end == far]
    agreed = {(match.means[0].kind, match.means[0].value) for match in found}
    return found[0] if len(agreed) == 1 else None


def _other_word(typed: str, meant: str, match: Match) -> bool:
    """A word of four letters with one of them changed is more likely another word (worn, torn);
    of colours there are few enough to mend it. Of three letters only two changed places are a slip."""
    swapped = sorted(typed) == sorted(meant)
    if len(meant) < _SHORTEST:
        return not (swapped and match.means[0].kind == "colour")
    return len(typed) == len(meant) == 4 and not swapped and match.means[0].kind != "colour"


def _walk(line: Line, at: int, node: Node, changed: int) -> Iterator[Match]:
    """Every phrase along the tree from a first word; a figure inside a cancel's name is stepped over."""
    hole = -1
    if node.means:
        yield Match(tuple(node.means), at + 1, changed > 0, changed, hole)
    while node.next and (ahead := line.after[at]) >= 0:
        step = line.tokens[ahead].text
        if step not in node.next:
            meant = _step_meant(node, step, line.vocabulary)
            if meant:
                step, changed = meant, changed + 1
            elif hole < 0 and _NUMBER.fullmatch(step) and line.after[ahead] >= 0:
                hole, at = ahead, ahead
                continue
            else:
                return
        node, at = node.next[step], ahead
        if node.means and (hole < 0 or node.means[0].kind == "cancel"):
            yield Match(tuple(node.means), at + 1, changed > 0, changed, hole)


def _step_meant(node: Node, word: str, vocabulary: Vocabulary) -> str | None:
    """The one continuation a mistyped word can have meant; a word known elsewhere is no slip."""
    if not _typed_word(word) or word in vocabulary.tree.next or word in vocabulary.grammar.english:
        return None
    if word in vocabulary.fillers or word in vocabulary.where:
        return None
    near = [each for each, _ in _nearest(word, tuple(node.next))]
    agreed = {tuple((each.kind, each.value) for each in node.next[word].means) for word in near}
    return near[0] if len(agreed) == 1 else None


@lru_cache(maxsize=4096)
def meant_by(vocabulary: Vocabulary, word: str) -> tuple[tuple[str, int], ...]:
    """The first words of phrases nearest to a mistyped word, each with how many letters are wrong."""
    if not word.isalpha() or not 3 <= len(word) <= _LONGEST:
        return ()
    if len(word) == 3:
        turned = (word[1] + word[0] + word[2], word[0] + word[2] + word[1])
        return tuple((each, 1) for each in turned if each in vocabulary.tree.next)
    reach, shelves = _allowed(word), _by_length(vocabulary)
    lengths = range(len(word) - reach, len(word) + reach + 1)
    return tuple(_nearest(word, [each for length in lengths for each in shelves.get(length, ())]))


@lru_cache(maxsize=4)
def _by_length(vocabulary: Vocabulary) -> dict[int, list[str]]:
    """The first words of all phrases long enough to be mistyped, by their length."""
    shelves: dict[int, list[str]] = {}
    for word, node in vocabulary.tree.next.items():
        if len(word) >= _SHORTEST and not (node.means and node.means[0].kind in _NO_SLIPS):
            shelves.setdefault(len(word), []).append(word)
    return shelves


def _allowed(word: str) -> int:
    """One slip of the finger, two in a long word."""
    return 1 if len(word) < 8 else 2


def _typed_word(word: str) -> bool:
    return _SHORTEST <= len(word) <= _LONGEST and word.isalpha()


def _nearest(word: str, among: Iterable[str]) -> list[tuple[str, int]]:
    """All words at the least distance within reach, with the distance."""
    from rapidfuzz.distance import OSA
    from rapidfuzz.process import extract

    among = [each for each in among if len(each) >= _SHORTEST]
    near = extract(word, among, scorer=OSA.distance, score_cutoff=_allowed(word), limit=8)
    least = min((distance for _, distance, _ in near), default=0)
    near = [each for each in near if each[1] == least]
    swapped = [each for each in near if sorted(each[0]) == sorted(word)]  # two letters changed places
    return [(each, int(distance)) for each, distance, _ in swapped or near]
