"""The last word on order: the best lines looked at one by one, and why each was found."""

from __future__ import annotations

from collections.abc import Sequence

from counter.ledger.search.hit import Hit
from counter.ledger.search.meaning import BEGUN, EXACT, SLIP, Meaning
from counter.ledger.search.shelf import Shelf
from counter.ledger.search.words import even

_SHARE = {EXACT: 1.0, BEGUN: 0.8, SLIP: 0.6, 0: 0.0}
_WORTH_SHOWING = 0.5  # of the best line's score


def ranked(shelf: Shelf, meanings: Sequence[Meaning], pool: Sequence[int], limit: int) -> list[Hit]:
    """The pool in order, best first: by weight answered, then in stock, then the plainer line."""
    graders = _graders(meanings)
    whole = sum(meaning.weight for meaning in meanings)
    stocked = shelf.by_status.get("in stock", 0)
    scored = []
    for slot in pool:
        tokens = shelf.tokens_at(slot)
        answers = _answers(graders, tokens, meanings, slot)
        scored.append((-sum(answers), not stocked >> slot & 1, len(tokens), -slot, answers))
    scored.sort()
    least = scored[0][0] * _WORTH_SHOWING if scored else 0.0
    typed = {token: meaning.text for meaning in reversed(meanings) for token in meaning.tokens}
    return [
        _hit(shelf, meanings, -slot, -score / whole, answers, typed)
        for score, _, _, slot, answers in scored[:limit]
        if score <= least
    ]


def _graders(meanings: Sequence[Meaning]) -> dict[int, list[tuple[int, float]]]:
    """Token to the (place of the word, weight) that it answers."""
    graders: dict[int, list[tuple[int, float]]] = {}
    for place, meaning in enumerate(meanings):
        for token, grade in meaning.tokens.items():
            graders.setdefault(token, []).append((place, meaning.weight * _SHARE[grade]))
    return graders


def _answers(
    graders: dict[int, list[tuple[int, float]]],
    tokens: Sequence[int],
    meanings: Sequence[Meaning],
    slot: int,
) -> list[float]:
    """How much of each word's weight a line answers."""
    answers = [float(m.weight) if m.numbered and m.numbered >> slot & 1 else 0.0 for m in meanings]
    for token in tokens:
        if token in graders:
            for place, weight in graders[token]:
                if weight > answers[place]:
                    answers[place] = weight
    return answers


def _hit(
    shelf: Shelf,
    meanings: Sequence[Meaning],
    slot: int,
    score: float,
    answers: Sequence[float],
    typed: dict[int, str],
) -> Hit:
    missed = tuple(m.text for m, answer in zip(meanings, answers, strict=True) if not answer)
    in_number = any(m.numbered >> slot & 1 for m in meanings if m.numbered)
    spans = _spans(shelf, slot, typed)
    return Hit(shelf.numbers[slot], shelf.lines[slot], score, spans, in_number, missed)


def _spans(shelf: Shelf, slot: int, typed: dict[int, str]) -> tuple[tuple[int, int], ...]:
    """The parts of a line that were meant: the letters typed of a word begun, else the whole word."""
    low = even(shelf.lines[slot])
    tokens, places = shelf.tokens_at(slot), shelf.places_at(slot)
    spans: dict[int, int] = {}
    for at in range(len(places) // 2):
        if tokens[at] in typed:
            start, end = places[2 * at], places[2 * at + 1]
            text = typed[tokens[at]]
            if low.startswith(text, start):
                end = min(end, start + len(text))
            spans[start] = max(end, spans.get(start, 0))
    return tuple(sorted(spans.items()))
