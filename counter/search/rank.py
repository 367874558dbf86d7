"""The last word on order: the best lines looked at one by one, and why each was found."""

from __future__ import annotations

from collections.abc import Sequence

from counter.search.hit import Hit
from counter.search.line_store import LineStore
from counter.search.term_match import BEGUN, EXACT, SLIP, Meaning
from counter.search.tokenizer import even

_SHARE = {EXACT: 1.0, BEGUN: 0.8, SLIP: 0.6, 0: 0.0}
_UNSEEN = 0.97  # of a word that the line itself does not show
_WORTH_SHOWING = 0.5  # of the best line's score


#: For a token: the typed text, and the place and weight of each word it answers.
Graders = dict[int, tuple[str, list[tuple[int, float]]]]


def ranked(shelf: LineStore, meanings: Sequence[Meaning], pool: Sequence[int], limit: int) -> list[Hit]:
    """The pool in order, best first: by weight answered, then in stock, then the plainer line."""
    graders = _graders(meanings)
    stocked = shelf.by_status.get("in stock", 0)
    numbered = any(meaning.numbered or meaning.numbered_near for meaning in meanings)
    scored = []
    for slot in pool:
        tokens = shelf.tokens_at(slot)
        matched = [(at, *graders[token]) for at, token in enumerate(tokens) if token in graders]
        answers = _numbered(meanings, slot) if numbered else [0.0] * len(meanings)
        shown = len(shelf.places[slot]) // 4  # so many of the tokens stand in the line
        for at, _, weights in matched:
            for place, weight in weights:
                if (got := weight if at < shown else weight * _UNSEEN) > answers[place]:
                    answers[place] = got
        scored.append((-sum(answers), not stocked >> slot & 1, len(tokens), -slot, answers, matched))
    scored.sort()
    least = scored[0][0] * _WORTH_SHOWING if scored else 0.0
    whole = sum(meaning.weight for meaning in meanings)
    hits = []
    for score, _, _, slot, answers, matched in scored[:limit]:
        if score <= least:
            missed = tuple(m.text for m, got in zip(meanings, answers, strict=True) if not got)
            named = numbered and any(_numbered(meanings, -slot))
            spans = _spans(shelf, -slot, matched)
            line = shelf.lines[-slot]
            hits.append(Hit(shelf.numbers[-slot], line, -score / whole, spans, named, missed))
    return hits


def _graders(meanings: Sequence[Meaning]) -> Graders:
    graders: Graders = {}
    for place, meaning in enumerate(meanings):
        weights = {grade: (place, meaning.weight * share) for grade, share in _SHARE.items()}
        for token, grade in meaning.tokens.items():
            if token in graders:
                graders[token][1].append(weights[grade])
            else:
                graders[token] = (meaning.text, [weights[grade]])
    return graders


def _numbered(meanings: Sequence[Meaning], slot: int) -> list[float]:
    """The weight of each word that is, or may be, this line's stock number."""
    return [
        meaning.weight * _SHARE[EXACT]
        if meaning.numbered >> slot & 1
        else meaning.weight * _SHARE[BEGUN] * (meaning.numbered_near >> slot & 1)
        for meaning in meanings
    ]


def _spans(
    shelf: LineStore, slot: int, matched: Sequence[tuple[int, str, object]]
) -> tuple[tuple[int, int], ...]:
    """The parts of a line that were meant: the letters typed of a word begun, else the whole word."""
    low = even(shelf.lines[slot])
    places = shelf.places_at(slot)
    shown = len(places) // 2  # after these stand the record's tokens, which are not in the line
    spans: dict[int, int] = {}
    for at, text, _ in matched:
        if at < shown:
            start, end = places[2 * at], places[2 * at + 1]
            spans[start] = min(end, start + len(text)) if low.startswith(text, start) else end
    return tuple(sorted(spans.items()))
