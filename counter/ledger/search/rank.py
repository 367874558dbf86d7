"""The last word on order: the best lines looked at one by one, and why each was found."""

from __future__ import annotations

from collections.abc import Sequence

from counter.ledger.search.hit import Hit
from counter.ledger.search.meaning import BEGUN, EXACT, SLIP, Meaning
from counter.ledger.search.postings import Postings
from counter.ledger.search.shelf import Shelf
from counter.ledger.search.words import even, pieces

_SHARE = {EXACT: 1.0, BEGUN: 0.8, SLIP: 0.6, 0: 0.0}
_WORTH_SHOWING = 0.5  # of the best line's score


def ranked(
    shelf: Shelf, postings: Postings, meanings: Sequence[Meaning], pool: Sequence[int], limit: int
) -> list[Hit]:
    """The pool in order, best first: by weight answered, then in stock, then the plainer line."""
    graders = _graders(meanings)
    whole = sum(meaning.weight for meaning in meanings)
    stocked = shelf.by_status.get("in stock", 0)
    scored = []
    for slot in pool:
        tokens = shelf.tokens_at(slot)
        grades = _grades(graders, tokens, meanings, slot)
        score = sum(m.weight * _SHARE[g] for m, g in zip(meanings, grades, strict=True)) / whole
        scored.append((-score, not stocked >> slot & 1, len(tokens), -slot, grades))
    scored.sort(key=lambda each: each[:4])
    least = scored[0][0] * _WORTH_SHOWING if scored else 0.0
    return [
        _hit(shelf, postings, meanings, -slot, -score, grades)
        for score, _, _, slot, grades in scored[:limit]
        if score <= least
    ]


def _graders(meanings: Sequence[Meaning]) -> dict[int, list[tuple[int, int]]]:
    """Token to the (place of the word, grade) it answers."""
    graders: dict[int, list[tuple[int, int]]] = {}
    for place, meaning in enumerate(meanings):
        for token, grade in meaning.tokens.items():
            graders.setdefault(token, []).append((place, grade))
    return graders


def _grades(
    graders: dict[int, list[tuple[int, int]]],
    tokens: Sequence[int],
    meanings: Sequence[Meaning],
    slot: int,
) -> list[int]:
    """How well each word is answered by a line."""
    grades = [EXACT if m.numbered and m.numbered >> slot & 1 else 0 for m in meanings]
    for token in tokens:
        for place, grade in graders.get(token, ()):
            if grade > grades[place]:
                grades[place] = grade
    return grades


def _hit(
    shelf: Shelf,
    postings: Postings,
    meanings: Sequence[Meaning],
    slot: int,
    score: float,
    grades: Sequence[int],
) -> Hit:
    line = shelf.lines[slot]
    wanted: dict[str, str] = {}
    for meaning in meanings:
        for token in meaning.tokens:
            wanted.setdefault(postings.names[token], meaning.text)
    missed = tuple(m.text for m, grade in zip(meanings, grades, strict=True) if not grade)
    in_number = any(m.numbered >> slot & 1 for m in meanings if m.numbered)
    return Hit(shelf.numbers[slot], line, score, _spans(line, wanted), in_number, missed)


def _spans(line: str, wanted: dict[str, str]) -> tuple[tuple[int, int], ...]:
    """The parts of a line that were meant: the letters typed of a word begun, else the whole word."""
    low = even(line)
    corners = {token[at : at + 2] for token in wanted if token[0] == "=" for at in (1, 3)}
    spans = []
    for piece in pieces(line):
        typed = next((wanted[token] for token in piece.tokens if token in wanted), None)
        if typed is None:
            if low[piece.start : piece.end] in corners:
                spans.append((piece.start, piece.end))
        elif low.startswith(typed, piece.start):
            spans.append((piece.start, min(piece.end, piece.start + len(typed))))
        else:
            spans.append((piece.start, piece.end))
    return tuple(spans)
