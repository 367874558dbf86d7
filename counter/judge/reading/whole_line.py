"""What only the line as a whole can tell: a letter older than stamps, a Red Cross, an office abroad, a
price beside a value, the century of a date."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from counter.judge.reading.days import SHORT_DATE, iso_words
from counter.judge.reading.piece import FILLER, NOTED, UNREAD, WHERE, Piece

#: British post offices abroad had a letter and two figures: A25 Malta, C51 St Thomas; the districts of
#: London their points of the compass (common practice).
_OFFICE = re.compile(r"[a-g][0-9]{2}|(?:e|ec|n|ne|nw|s|se|sw|w|wc)[0-9]{1,2}")
_NAMED = frozenset({"denomination", "colour", "series", "plate", "cancel", "town", "abroad"})
_OF_A_STAMP = frozenset(
    ("colour", "series", "plate", "letters", "separation", "watermark", "corners", "lines")
)
_MODERN = frozenset({"edward_7", "george_5", "edward_8", "george_6", "elizabeth_2"})
_BEFORE_STAMPS = frozenset({"uniform_4d_ms", "addl_half", "mileage"})
_HIGH = frozenset({"5s", "10s", "£1"})


def settle_whole_line(pieces: list[Piece], folded: str) -> None:
    """Take a value as a charge or a price, "red cross" as a subject, C51 as a cancel's number, the
    Maltese cross as a watermark, where the rest of the line makes it one."""
    _prices(pieces)
    _charges(pieces, folded)
    _red_cross(pieces, folded)
    _offices(pieces, folded)
    _short_year(pieces, folded)
    _high_values(pieces)
    _upright_cancels(pieces, folded)
    _crowned_marks(pieces)


def with_places(pieces: list[Piece], folded: str) -> list[Piece]:
    """Words for a place on the stamp belong to the fault or margin they follow."""
    done: list[Piece] = []
    host: Piece | None = None
    for number, piece in enumerate(pieces):
        if host and any(_places(pieces[number:])):
            host.words += f" {folded[piece.start : piece.end]}"
            host.end = piece.end
            continue
        if not host or piece.start != host.start:  # what else the same words say follows it
            host = piece if piece.kind in ("fault", "margins") else None
        done.append(piece)
    return done


def _places(run: list[Piece]) -> Iterator[bool]:
    """For the words that follow on, whether each is a place and not just "at" or "the"."""
    for piece in run:
        if piece.value != WHERE or piece.kind not in (FILLER, UNREAD):
            return
        yield piece.kind == UNREAD


def papers(pieces: list[Piece]) -> list[Piece]:
    """A colour of the paper makes coloured paper; blue paper of a penny or twopence may be blued."""
    values = {piece.value for piece in pieces if piece.kind == "denomination"}
    done: list[Piece] = []
    for piece in pieces:
        done.append(piece)
        if piece.kind == "paper_colour":
            blued = piece.value == "blue" and values & {"1d", "2d"}
            value, words = (
                ("blued|coloured", "blued or blue paper") if blued else ("coloured", "coloured paper")
            )
            done.append(piece.turned("paper", value, words))
    return done


def before_stamps(pieces: list[Piece]) -> bool:
    """Whether the line dates its letter before 1840."""
    return any(piece.kind == "date" and piece.value < "1840" for piece in pieces)


def _prices(pieces: list[Piece]) -> None:
    """A sum of pounds, or of new pence, beside the stamp's own value is its price."""
    values = [piece for piece in pieces if piece.kind == "denomination"]
    stamps = [
        piece for piece in values if not piece.value.startswith("£") and not piece.value.endswith("p")
    ]
    for number, piece in enumerate(pieces):
        if piece.kind != "denomination" or piece in stamps or _ends_a_set(pieces, number):
            continue
        if stamps or (piece.value.startswith("£") and values[0] is not piece):
            pence = int(piece.value[1:]) * 100 if piece.value[0] == "£" else _new_pence(piece.value)
            pieces[number] = piece.turned("price", str(pence), f"price {piece.value}")


def _ends_a_set(pieces: list[Piece], number: int) -> bool:
    """2/6 to £1: the values of a set."""
    return number > 1 and pieces[number - 1].words == "to" and pieces[number - 2].kind == "denomination"


def _new_pence(value: str) -> int:
    return int(value.removesuffix("p").removesuffix("½") or 0)


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


def _crowned_marks(pieces: list[Piece]) -> None:
    """On a letter without a stamp a crown is in a mark; there is nothing to have a watermark."""
    kinds = {piece.kind for piece in pieces}
    if "stampless" in kinds or (
        before_stamps(pieces) and not kinds & _OF_A_STAMP - {"watermark", "colour"}
    ):
        for number, piece in enumerate(pieces):
            if piece.kind in ("watermark", "watermark_way"):
                pieces[number] = piece.turned(NOTED)


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


def _offices(pieces: list[Piece], folded: str) -> None:
    """A25 or C51 beside a stamp or a place is the number of an office; alone it is a stock number."""
    if not any(piece.kind in _NAMED or piece.kind == UNREAD for piece in pieces):
        return
    for number, piece in enumerate(pieces):
        before = pieces[number - 1] if number else None
        asked = before is not None and before.kind == FILLER and before.end == piece.start
        typed = folded[piece.start : piece.end]
        if piece.kind == "stock_number" and not asked and _OFFICE.fullmatch(typed):
            pieces[number] = piece.turned("cancel_number", piece.value, f"number {piece.value}")


def _high_values(pieces: list[Piece]) -> None:
    """On a 5s, 10s or £1 the Maltese cross is the watermark; on the 6d VR is."""
    values = {piece.value for piece in pieces if piece.kind == "denomination"}
    for number, piece in enumerate(pieces):
        if piece.kind == "cancel" and piece.value == "maltese_cross" and values & _HIGH:
            pieces[number] = piece.turned("watermark", words="watermark Maltese cross")
        elif piece.kind == "corners" and piece.value == "vr" and "6d" in values:
            pieces[number] = piece.turned("watermark", "vr", "watermark VR")
        elif piece.kind == "colour" and piece.value == "black" and _black_plate(pieces, number):
            pieces[number] = piece.turned("series", "black_plate", "from a plate of the 1d black")


def _upright_cancels(pieces: list[Piece], folded: str) -> None:
    """The upright oval, an inverted cds: the way a cancel stands, not the watermark's."""
    for number, (way, cancel) in enumerate(pairwise(pieces)):
        marked = number and pieces[number - 1].kind == "watermark"
        said = folded[way.start : way.end].isalpha()  # and not "wmk inverted"
        if way.kind == "watermark_way" and said and cancel.kind == "cancel" and not marked:
            pieces[number] = way.turned(NOTED)


def _black_plate(pieces: list[Piece], number: int) -> bool:
    """1d red blk plate pl 8."""
    after = pieces[number + 1] if number + 1 < len(pieces) else None
    others = any(each.kind == "colour" and each.value != "black" for each in pieces)
    return bool(others and after and after.kind == FILLER and after.words in ("plate", "plates"))


def centuries(pieces: list[Piece]) -> None:
    """A year of two figures is Victorian from 40 on, unless the line speaks of a later reign; on a
    letter from before stamps it is of the 1800s."""
    modern = any(
        (piece.kind == "reign" and piece.value in _MODERN)
        or (piece.kind == "denomination" and piece.value.endswith("p"))
        or (piece.kind == "date" and piece.value >= "1901")
        for piece in pieces
    )
    early = any(
        piece.kind == "stampless" or (piece.kind == "mark" and piece.value in _BEFORE_STAMPS)
        for piece in pieces
    )
    for number, piece in enumerate(pieces):
        if piece.kind == SHORT_DATE:
            century = "19" if modern or (piece.value[2:4] < "40" and not early) else "18"
            iso = century + piece.value[2:]
            if iso == "1900-02-29":
                pieces[number] = piece.turned(UNREAD)
            else:
                pieces[number] = piece.turned("date", iso, iso_words(iso))
