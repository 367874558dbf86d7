"""What only the line as a whole can tell: a letter older than stamps, a Red Cross, an office abroad."""

from __future__ import annotations

import re
from itertools import pairwise

from counter.judge.reading.piece import FILLER, UNREAD, Piece

#: British post offices abroad had a letter and two figures: A25 Malta, C51 St Thomas (common practice).
_ABROAD = re.compile(r"[a-g][0-9]{2}")
_NAMED = frozenset({"denomination", "colour", "series", "plate"})
_OF_A_STAMP = _NAMED - {"denomination"} | {"letters", "separation", "watermark", "corners", "lines"}


def settle(pieces: list[Piece], folded: str) -> None:
    """Take a value as a charge, "red cross" as a subject, C51 as a cancel's number where it is one."""
    _charges(pieces, folded)
    _red_cross(pieces, folded)
    _abroad(pieces, folded)
    _short_year(pieces, folded)


def before_stamps(pieces: list[Piece]) -> bool:
    """Whether the line dates its letter before 1840."""
    return any(piece.kind == "date" and piece.value < "1840" for piece in pieces)


def _charges(pieces: list[Piece], folded: str) -> None:
    """On a letter without a stamp a value is the charge: "1829 el bristol to leeds 1s 2d"."""
    kinds = {piece.kind for piece in pieces}
    if "stampless" not in kinds and not (before_stamps(pieces) and not kinds & _OF_A_STAMP):
        return
    for number, piece in enumerate(pieces):
        if piece.kind != "denomination":
            continue
        after = pieces[number + 1] if number + 1 < len(pieces) else None
        value, end = piece.value, piece.end
        if after and _its_pence(piece, after, folded):
            value, end = value + after.value, after.end
            after.kind, after.start = FILLER, after.end
        pieces[number] = piece.turned("charge", value, f"charge {value}")
        pieces[number].end = end
    pieces[:] = [piece for piece in pieces if piece.end > piece.start]


def _its_pence(shillings: Piece, after: Piece, folded: str) -> bool:
    whole = re.fullmatch(r"[0-9]+s", shillings.value) and after.kind == "denomination"
    return bool(whole and after.value.endswith("d") and folded[shillings.end : after.start].isspace())


def _red_cross(pieces: list[Piece], folded: str) -> None:
    """A "red cross" with a date after 1950 is the centenary of the Red Cross and no cancel."""
    if not any(piece.kind == "date" and piece.value >= "1950" for piece in pieces):
        return
    for number, (colour, cross) in enumerate(pairwise(pieces)):
        if cross.kind == "cancel" and folded[colour.start : cross.end].split() == ["red", "cross"]:
            subject = "Red Cross centenary"
            pieces[number] = colour.turned("subject", subject, f"commemorative: {subject}")
            pieces[number].end = cross.end
            del pieces[number + 1]
            return


def _short_year(pieces: list[Piece], folded: str) -> None:
    """Two bare figures beside a commemorative's subject are its year: "4d world cup 66"."""
    kinds = {piece.kind for piece in pieces}
    if "subject" not in kinds or "date" in kinds:
        return
    for number, piece in enumerate(pieces):
        typed = folded[piece.start : piece.end]
        if piece.kind == UNREAD and re.fullmatch("[2-8][0-9]", typed):
            pieces[number] = piece.turned("date", f"19{typed}", f"19{typed}")
            return


def _abroad(pieces: list[Piece], folded: str) -> None:
    """A25 or C51 beside a stamp is the number of an office abroad; alone it is a stock number."""
    if not any(piece.kind in _NAMED for piece in pieces):
        return
    for number, piece in enumerate(pieces):
        before = pieces[number - 1] if number else None
        asked = before is not None and before.kind == FILLER and before.end == piece.start
        typed = folded[piece.start : piece.end]
        if piece.kind == "stock_number" and not asked and _ABROAD.fullmatch(typed):
            pieces[number] = piece.turned("cancel_number", piece.value, f"number {piece.value}")
