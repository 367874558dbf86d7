"""Read one typed line: the cheapest way through its words, then whose each thing is and what is said of it.

Nothing raises, and every character belongs to something.
"""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.observation import KINDS, Observation, Reading, Second, Unread
from counter.judge.reading import multiples, places, whole_line
from counter.judge.reading.lattice import Path, cheapest
from counter.judge.reading.lettering import joined
from counter.judge.reading.line import Line
from counter.judge.reading.modifiers import modified
from counter.judge.reading.numbers import numbered, repeated
from counter.judge.reading.ownership import owned
from counter.judge.reading.piece import FILLER, NOTED, PAUSE, UNREAD, Piece
from counter.reference.vocabulary import Vocabulary
from counter.values.letters import spoken

#: What is passed over once it has done its work; without any work to do a thing is still understood.
_GRAMMAR = frozenset({"denial", "doubt", "hedge", "choice", "a_cancel", "backstamp_cue"})
_SHOWN = frozenset({"denial", "doubt", "hedge"})


def read_line(text: str, vocabulary: Vocabulary) -> Reading:
    """What a typed line says. Pure: the same line and words always give the same reading."""
    line = Line(text, vocabulary)
    path = cheapest(line)
    pieces = [_plain(piece) for piece in _settled(path.pieces, line)]
    observations = tuple(
        Observation(
            each.kind, each.value, each.words, each.start, each.end, each.slip, each.said, each.stamp
        )
        for each in pieces
        if each.kind in KINDS
    )
    passed = [(each.start, each.end) for each in pieces if each.kind in (FILLER, PAUSE, NOTED)]
    unread = tuple(
        Unread(text[each.start : each.end], each.start, each.end)
        for each in pieces
        if each.kind == UNREAD
    )
    noted = tuple(
        Unread(text[each.start : each.end], each.start, each.end)
        for each in pieces
        if each.kind == NOTED
    )
    fillers = tuple(sorted((*passed, *_between(pieces, line.folded))))
    return Reading(text, observations, unread, fillers, noted, tuple(_second(path, line)))


def _settled(pieces: list[Piece], line: Line) -> list[Piece]:
    """The pieces in their final kinds, in the order in which each step needs the one before."""
    folded, vocabulary = line.folded, line.vocabulary
    pieces = joined(pieces, folded, vocabulary)
    pieces = whole_line.with_places(pieces, folded)
    repeated(pieces, folded, lambda words: cheapest(Line(words, vocabulary)).pieces)
    numbered(pieces, folded, vocabulary)
    whole_line.settle_whole_line(pieces, folded)
    owned(pieces, folded, vocabulary)
    pieces = whole_line.papers(pieces)
    pieces = modified(pieces, vocabulary.grammar)
    whole_line.centuries(pieces)
    pieces = places.settle_places(pieces, folded)
    return multiples.settle_multiples(pieces, folded)


def _plain(piece: Piece) -> Piece:
    if piece.kind in KINDS or piece.kind in (FILLER, PAUSE, UNREAD, NOTED):
        return piece
    if piece.kind == "thing":
        return piece.turned(FILLER if piece.value in ("stamp", "paper") else NOTED)
    return piece.turned(FILLER if piece.kind in _GRAMMAR else UNREAD)


def _between(pieces: list[Piece], folded: str) -> Iterator[tuple[int, int]]:
    """What a pattern stepped over between its pieces: "franked (with) 2d", "no(.) 46"."""
    place = 0
    for piece in (*pieces, Piece(FILLER, "", "", len(folded), len(folded))):
        step = folded[place : piece.start]
        if step.strip():
            start = place + len(step) - len(step.lstrip())
            yield start, start + len(step.strip())
        place = max(place, piece.end)


def _second(path: Path, line: Line) -> Iterator[Second]:
    """What else some words may have meant, and the line that says so."""
    for pieces, _ in path.others:
        first, last = pieces[0], pieces[-1]
        words = " · ".join(piece.words for piece in pieces if piece.seen)
        said = f"lettered {spoken(first.value)}" if first.kind == "letters" else pieces[0].words
        yield Second(words, f"{line.text[: first.start]}{said}{line.text[last.end :]}")
