"""An answer to a look, put into the ask line in words that are read back as that answer.

The line stays the one truth: what was answered stands in it, can be seen, changed and taken out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache

from counter.judge.identify.evidence import evidence_of
from counter.judge.identify.model import Model, model_of
from counter.judge.observation import Observation, Reading
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.reference.vocabulary import Node, Phrase, Vocabulary

#: How the trade says a bare value of a kind.
_FORMS = {
    "plate": "plate {}",
    "die": "die {}",
    "alphabet": "alphabet {}",
    "gauge": "gauge {}",
    "dots": "{} dots",
    "paper": "{} paper",
}


def line_with_answer(
    text: str, answer: Observation, library: Library, *, before: bool = False
) -> str | None:
    """The line with words for the answer added at its end, or else (always when `before`) in front.

    Nothing else in the line is read differently for it. A colour may be read back as the nearest
    the vocabulary knows of the same main hue. None when no words for the answer fit the line.
    """
    was, model = read_line(text, library.vocabulary), model_of(library.stamps)
    near: list[tuple[float, str]] = []
    for words in dict.fromkeys(_phrasings(answer, library.vocabulary)):
        for line in _lines(text, words, before):
            fit = _read_back(line, answer, was, library, model)
            if fit == 1.0:
                return line
            near.append((fit, line))
    fit, line = max(near, key=lambda each: each[0])
    return line if fit >= model.stamps.errors.fits["same main hue"] else None


def _lines(text: str, words: str, before: bool) -> Iterator[str]:
    """The words behind the line, or before it; with a comma where else they would go with its words."""
    if not before:
        yield f"{text.rstrip()} {words}".lstrip()
        yield f"{text.rstrip()}, {words}".lstrip(", ")
    yield f"{words} {text.lstrip()}".rstrip()
    yield f"{words}, {text.lstrip()}".rstrip(", ")


def _phrasings(answer: Observation, vocabulary: Vocabulary) -> Iterator[str]:
    """The answer's own words, the trade's way of saying such a value, the words that may be typed."""
    plain = answer.value.replace("_", " ")
    yield answer.words
    if answer.kind in _FORMS:
        yield _FORMS[answer.kind].format(plain)
    for phrase in said_by(vocabulary).get((answer.kind, answer.value), ()):
        yield from (phrase.said, *phrase.spellings)
    yield plain
    if answer.kind == "colour":
        first, _, rest = plain.partition("-")
        yield f"{first}ish-{rest}"
        yield f"{first.removesuffix('e')}ish-{rest}"
        yield rest or first


@lru_cache(maxsize=4)
def said_by(vocabulary: Vocabulary) -> dict[tuple[str, str], tuple[Phrase, ...]]:
    """The phrases that make an observation, by its kind and value."""
    found: dict[tuple[str, str], dict[Phrase, None]] = {}
    left: list[Node] = [vocabulary.tree]
    while left:
        node = left.pop()
        left += node.next.values()
        for phrase in node.means:
            found.setdefault((phrase.kind, phrase.value), {})[phrase] = None
    return {key: tuple(phrases) for key, phrases in found.items()}


def _read_back(line: str, answer: Observation, was: Reading, library: Library, model: Model) -> float:
    """How well the line is read as what it said before and the answer: 1 exactly, 0 not at all."""
    now = read_line(line, library.vocabulary)
    if len(now.unread) > len(was.unread):
        return 0.0
    before, after = (
        Counter((each.kind, each.value) for each in reading.observations) for reading in (was, now)
    )
    if before - after or any(kind != answer.kind for kind, _ in after - before):
        return 0.0
    made = next(
        (
            each
            for each in evidence_of(now.observations, model.stamps.errors)
            if each.kind == answer.kind
        ),
        None,
    )
    if made is None:
        return 0.0
    if answer.kind == "colour":
        same = model.palette.main(made.value) == model.palette.main(answer.value)
        return 1.0 if same else min(model.palette.fit(made.value, answer.value), 0.99)
    meant = (set(model.values(answer.kind, each.value)) for each in (made, answer))
    return 1.0 if next(meant) == next(meant) else 0.0
