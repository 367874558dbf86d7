"""The longest known phrase at a word, and the word that was meant when it was mistyped."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from counter.reference.vocabulary import Node, Phrase, Vocabulary

_SHORTEST, _LONGEST = 4, 24
_JOINTS = frozenset(" \t\n\r\f\v\u00a0-./'")
_NO_SLIPS = frozenset({"town", "abroad"})  # a town not listed is no mistyped town


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the line in its even form and where it stands."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Match:
    """What the words up to number `last` (included) mean; `slip` when one was mistyped."""

    means: tuple[Phrase, ...]
    last: int
    slip: bool = False


def is_colour(word: str, vocabulary: Vocabulary) -> bool:
    """Whether a word by itself names a colour."""
    node = vocabulary.tree.next.get(word)
    return node is not None and any(phrase.kind == "colour" for phrase in node.means)


def longest(folded: str, words: list[Word], at: int, vocabulary: Vocabulary) -> Match | None:
    """The longest phrase beginning with word number `at`, or None."""
    first = words[at].text
    node = vocabulary.tree.next.get(first)
    if node:
        return _walk(folded, words, at, node, vocabulary, False)
    if first in vocabulary.fillers or first in vocabulary.where:
        return None
    found = [
        match
        for meant in meant_by(vocabulary, first)
        if (match := _walk(folded, words, at, vocabulary.tree.next[meant], vocabulary, True))
        and match.means[0].kind not in _NO_SLIPS
        and not _another_word(first, meant, match)
    ]
    best = max((match.last for match in found), default=-1)
    found = [match for match in found if match.last == best]
    agreed = {(match.means[0].kind, match.means[0].value) for match in found}
    return found[0] if len(agreed) == 1 else None


def _another_word(typed: str, meant: str, match: Match) -> bool:
    """A word of four letters with one of them changed is more likely another word (worn, torn);
    of colours there are few enough to mend it."""
    changed = len(typed) == len(meant) == 4 and sorted(typed) != sorted(meant)
    return changed and match.means[0].kind != "colour"


def _walk(
    folded: str, words: list[Word], at: int, node: Node, vocabulary: Vocabulary, slip: bool
) -> Match | None:
    best = Match(tuple(node.means), at, slip) if node.means else None
    while at + 1 < len(words) and node.next:
        here, after = words[at], words[at + 1]
        if after.start - here.end > 3 or not _JOINTS.issuperset(folded[here.end : after.start]):
            break
        step = after.text
        if step not in node.next:
            meant = _step_meant(node, step, vocabulary)
            if not meant:
                break
            step, slip = meant, True
        node, at = node.next[step], at + 1
        if node.means:
            best = Match(tuple(node.means), at, slip)
    return best


def _step_meant(node: Node, word: str, vocabulary: Vocabulary) -> str | None:
    """The one continuation a mistyped word can have meant; a word known elsewhere is no slip."""
    if word in vocabulary.tree.next or word in vocabulary.fillers or word in vocabulary.where:
        return None
    near = _nearest(word, tuple(node.next)) if _typed_word(word) else []
    agreed = {tuple((each.kind, each.value) for each in node.next[word].means) for word in near}
    return near[0] if len(agreed) == 1 else None


@lru_cache(maxsize=4096)
def meant_by(vocabulary: Vocabulary, word: str) -> tuple[str, ...]:
    """The first words of phrases nearest to a mistyped word, () when none is near."""
    if not _typed_word(word):
        return ()
    reach, shelves = _allowed(word), _by_length(vocabulary)
    lengths = range(len(word) - reach, len(word) + reach + 1)
    return tuple(_nearest(word, [each for length in lengths for each in shelves.get(length, ())]))


@lru_cache(maxsize=4)
def _by_length(vocabulary: Vocabulary) -> dict[int, list[str]]:
    """The first words of all phrases long enough to be mistyped, by their length."""
    shelves: dict[int, list[str]] = {}
    for word in vocabulary.tree.next:
        if len(word) >= _SHORTEST:
            shelves.setdefault(len(word), []).append(word)
    return shelves


def _allowed(word: str) -> int:
    """One slip of the finger, two in a long word."""
    return 1 if len(word) < 8 else 2


def _typed_word(word: str) -> bool:
    return _SHORTEST <= len(word) <= _LONGEST and word.isalpha()


def _nearest(word: str, among: Iterable[str]) -> list[str]:
    """All words at the least distance within reach."""
    from rapidfuzz.distance import OSA
    from rapidfuzz.process import extract

    among = [each for each in among if len(each) >= _SHORTEST]
    near = extract(word, among, scorer=OSA.distance, score_cutoff=_allowed(word), limit=8)
    least = min((distance for _, distance, _ in near), default=0)
    return [each for each, distance, _ in near if distance == least]
