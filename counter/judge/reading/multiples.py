"""The stamps of a multiple: a lettering named again opens a clause about that stamp.

Margins, faults, repairs and cancels of the clause are that stamp's; "end stamp", "last two" and "the
others" name stamps too. A lettering named again is no further stamp.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from counter.judge.reading.clauses import clauses
from counter.judge.reading.piece import FILLER, UNREAD, Piece

_OF_A_STAMP = frozenset({"margins", "fault", "repair", "condition", "cancel", "cancel_colour", "tied"})
_NAMING = frozenset(("other", "others", "rest", "remaining", "end", "last", "first", "second", "third"))
_OTHERS = re.compile(r"\b(?:the )?(?:other|others|rest|remaining)\b")
_PLACES = (
    (re.compile(r"\b(?:first|left[ -]?hand|left) stamp\b"), slice(0, 1)),
    (re.compile(r"\b(?:last|end|right[ -]?hand|right) stamp\b"), slice(-1, None)),
    (re.compile(r"\bsecond stamp\b"), slice(1, 2)),
    (re.compile(r"\bthird stamp\b"), slice(2, 3)),
    (re.compile(r"\bfirst (?:two|2)\b"), slice(0, 2)),
    (re.compile(r"\b(?:last|end) (?:two|2)\b"), slice(-2, None)),
    (re.compile(r"\b(?:last|end) (?:three|3)\b"), slice(-3, None)),
)


def settle_multiples(pieces: list[Piece], folded: str) -> list[Piece]:
    """The pieces with the stamp that each speaks of; several stamps make several observations."""
    letters = list(dict.fromkeys(piece.value for piece in pieces if piece.kind == "letters"))
    several = any(piece.kind == "multiple" and piece.value != "single" for piece in pieces)
    if not several or len(letters) < 2:
        return pieces
    named: set[str] = set()
    spoken: set[str] = set()
    done: list[Piece] = []
    place = 0
    for clause in (part for each in clauses(pieces) for part in _parts(pieces, each)):
        done += pieces[place : clause.start]
        place = clause.stop
        run = [pieces[number] for number in clause]
        here = [piece.value for piece in run if piece.kind == "letters"]
        stamps = _named_again(here, named, run) or _by_place(run, folded, letters, spoken)
        spoken.update(stamps)
        done += _of_stamps(run, stamps, named) if stamps else run
        named.update(here)
    return done + pieces[place:]


def _parts(pieces: list[Piece], clause: range) -> Iterator[range]:
    """A clause, parted where a further lettering follows on what is told of one: "KA 3 margins KB touched"."""
    start, lettered, told = clause.start, False, False
    for number in clause:
        kind = pieces[number].kind
        if kind == "letters" and lettered and told:
            yield range(start, number)
            start, told = number, False
        lettered = lettered or kind == "letters"
        told = told or (lettered and kind in _OF_A_STAMP)
    yield range(start, clause.stop)


def _named_again(here: list[str], named: set[str], run: list[Piece]) -> list[str]:
    """The letterings of a clause that were named before, or that have their own margins and faults."""
    told = any(piece.kind in _OF_A_STAMP for piece in run)
    if here and told and all(letters in named for letters in here):
        return here
    first = next((piece for piece in run if not piece.silent), None)
    own = (named or (first and first.kind == "letters")) and len(here) == 1 and told
    own = own and not any(piece.kind == "denomination" for piece in run)
    return here if own else []


def _by_place(run: list[Piece], folded: str, letters: list[str], spoken: set[str]) -> list[str]:
    """The stamps meant by "end stamp", "last two", "the others"."""
    if not run:
        return []
    said = folded[run[0].start : run[-1].end]
    for pattern, which in _PLACES:
        if pattern.search(said):
            return letters[which]
    if _OTHERS.search(said) and spoken:
        return [each for each in letters if each not in spoken]
    return []


def _of_stamps(run: list[Piece], stamps: list[str], named: set[str]) -> list[Piece]:
    """The clause with what it says given to the stamps; letters named before only say of which."""
    done: list[Piece] = []
    for piece in run:
        again = piece.kind == "letters" and piece.value in named
        if again or (piece.kind == UNREAD and piece.words in _NAMING):
            done.append(piece.turned(FILLER))
        elif piece.kind in _OF_A_STAMP:
            done += [replace(piece, stamp=stamp) for stamp in stamps]
        else:
            done.append(piece)
    return done
