"""Whose colour: the stamp's, its cancel's, or a mark's. Black or block ("blk"), cross or MC ("mc")."""

from __future__ import annotations

from counter.judge.reading.piece import FILLER, UNREAD, Piece
from counter.reference.vocabulary import Vocabulary

_MARKS = frozenset({"mark", "backstamp_cue"})
_AFTER_CANCEL = frozenset({"cancel_number", "cancel_type"})


def settle(pieces: list[Piece], folded: str, vocabulary: Vocabulary) -> None:
    """Turn each colour that is a cancel's or a mark's; drop shades that shade nothing."""
    solid = [number for number, piece in enumerate(pieces) if piece.kind != FILLER]
    _crosses(pieces, solid, vocabulary)
    for rank, number in enumerate(solid):
        piece = pieces[number]
        if (piece.kind == "cancel" and piece.value != "none") or piece.kind == "a_cancel":
            _give(pieces, solid, rank, "cancel_colour", vocabulary)
        elif piece.kind in _MARKS:
            _give(pieces, solid, rank, "mark_colour", vocabulary)
    _blocks(pieces, folded)
    _shades(pieces)


def _crosses(pieces: list[Piece], solid: list[int], vocabulary: Vocabulary) -> None:
    """A small "mc" beside a second colour is the cross ("1d blk red mc"), where no cancel is named."""
    colours = sum(piece.kind == "colour" for piece in pieces)
    if colours < 2 or any(piece.kind == "cancel" for piece in pieces):
        return
    for rank, number in enumerate(solid):
        other = pieces[number].other
        if pieces[number].kind != "letters" or other is None:
            continue
        if any(_colour(pieces, solid, near, vocabulary) is not None for near in (rank - 1, rank + 1)):
            pieces[number] = other


def _give(pieces: list[Piece], solid: list[int], rank: int, kind: str, vocabulary: Vocabulary) -> None:
    """Give the cancel or mark at `rank` the colour beside it.

    A colour right behind the face value is the stamp's ("1d red mx"), unless another colour is there
    for the stamp.
    """
    before, after = rank - 1, rank + 1
    while after < len(solid) and pieces[solid[after]].kind in _AFTER_CANCEL:
        after += 1
    if after < len(solid) and pieces[solid[after]].kind == "shade":
        after += 1
    ahead = _colour(pieces, solid, before, vocabulary)
    behind = _colour(pieces, solid, after, vocabulary)
    place = before - 1
    while place >= 0 and pieces[solid[place]].kind == "shade":
        place -= 1
    of_stamp = place >= 0 and pieces[solid[place]].kind == "denomination"
    others = sum(piece.kind == "colour" for piece in pieces)
    of_a_stamp = any(piece.kind == "denomination" for piece in pieces)
    chosen = None
    if ahead is not None and not (of_stamp and (behind is not None or others == 1)):
        chosen = ahead
    elif behind is not None and not (kind == "mark_colour" and others == 1 and of_a_stamp):
        chosen = behind
    if chosen is None:
        return
    colour = vocabulary.colours[pieces[chosen].value].cancel
    what = "cancel" if kind == "cancel_colour" else "mark"
    pieces[chosen] = pieces[chosen].turned(kind, colour, f"{what} {colour}")


def _colour(pieces: list[Piece], solid: list[int], rank: int, vocabulary: Vocabulary) -> int | None:
    """The number of the piece at a rank if it is a colour that inks have."""
    if not 0 <= rank < len(solid):
        return None
    piece = pieces[solid[rank]]
    known = piece.kind == "colour" and vocabulary.colours[piece.value].cancel
    return solid[rank] if known else None


def _blocks(pieces: list[Piece], folded: str) -> None:
    """A second "blk" beside the stamp's colour is a block ("1d red blk"), or names a black plate."""
    for number, piece in enumerate(pieces):
        others = any(each.kind == "colour" and each.value != "black" for each in pieces)
        if piece.kind != "colour" or piece.value != "black" or not others:
            continue
        after = pieces[number + 1] if number + 1 < len(pieces) else None
        if after and after.kind == FILLER and folded[after.start : after.start + 5] == "plate":
            pieces[number] = piece.turned("series", "black_plate", "from a plate of the 1d black")
        elif piece.other and piece.other.kind == "multiple":
            pieces[number] = piece.other


def _shades(pieces: list[Piece]) -> None:
    solid = [number for number, piece in enumerate(pieces) if piece.kind != FILLER]
    for rank, number in enumerate(solid):
        if pieces[number].kind != "shade":
            continue
        beside = [
            pieces[solid[near]].kind
            for near in (rank + 1, rank - 1, rank + 2)
            if 0 <= near < len(solid)
        ]
        coloured = any(kind.endswith("_colour") for kind in beside)
        of_stamp = not coloured and any(piece.kind == "colour" for piece in pieces)
        if "colour" in beside or of_stamp:
            continue
        pieces[number] = pieces[number].turned(FILLER if coloured else UNREAD)
