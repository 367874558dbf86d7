"""Settle what a piece alone cannot say: whose colour, whose number, which town, which century."""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.observation import KINDS
from counter.judge.reading import colours, places, whole_line
from counter.judge.reading.days import SHORT_DATE, iso_words
from counter.judge.reading.lettering import CUED, joined
from counter.judge.reading.piece import FILLER, NUMBER, PAUSE, UNREAD, WHERE, Piece
from counter.reference.vocabulary import Vocabulary

_MODERN = frozenset({"edward_7", "george_5", "edward_8", "george_6", "elizabeth_2"})
_BEFORE_STAMPS = frozenset({"uniform_4d_ms", "addl_half", "mileage"})
_HIGH = frozenset({"5s", "10s", "£1"})


def settle(pieces: list[Piece], folded: str, vocabulary: Vocabulary) -> list[Piece]:
    """Every piece with its final kind: an observation's, FILLER, PAUSE or UNREAD."""
    block = any(piece.kind == "multiple" and piece.value.startswith("block") for piece in pieces)
    pieces = joined(pieces, folded, vocabulary, block)
    pieces = _with_places(pieces, folded)
    _number(pieces, vocabulary)
    _high_values(pieces)
    _initials(pieces, folded)
    whole_line.settle(pieces, folded)
    colours.settle(pieces, folded, vocabulary)
    _centuries(pieces)
    pieces = places.settle(pieces, folded)
    return [_plain(piece) for piece in pieces]


def _plain(piece: Piece) -> Piece:
    if piece.kind in KINDS or piece.kind in (FILLER, PAUSE, UNREAD):
        return piece
    return piece.turned(FILLER if piece.kind == "a_cancel" else UNREAD)


def _with_places(pieces: list[Piece], folded: str) -> list[Piece]:
    """Words for a place on the stamp belong to the fault or margin they follow."""
    done: list[Piece] = []
    host: Piece | None = None
    for number, piece in enumerate(pieces):
        if host and piece.value == WHERE and piece.kind in (FILLER, UNREAD):
            run = pieces[number:]
            if piece.kind == UNREAD or any(_places(run)):
                host.words += f" {folded[piece.start : piece.end]}"
                host.end = piece.end
                continue
        host = piece if piece.kind in ("fault", "margins") else None
        done.append(piece)
    return done


def _places(run: list[Piece]) -> Iterator[bool]:
    """For the words that follow on, whether each is a place and not just "at" or "the"."""
    for piece in run:
        if piece.value != WHERE or piece.kind not in (FILLER, UNREAD):
            return
        yield piece.kind == UNREAD


def _number(pieces: list[Piece], vocabulary: Vocabulary) -> None:
    """Give a cancel its number: "numeral 46", "duplex 498", "46 numeral", "mx no 4", "5 in mx"."""
    solid = [
        number
        for number, piece in enumerate(pieces)
        if piece.kind not in (FILLER, PAUSE, "cancel_type")  # "numbered cross" is the cross of "5"
    ]
    for before, now, after in zip([-1, *solid], solid, [*solid[1:], -1], strict=False):
        piece = pieces[now]
        host = pieces[before] if before >= 0 else None
        numbered = host is not None and host.kind == "cancel" and host.value in vocabulary.numbered
        if piece.kind == "numeral cue":
            pieces[now] = piece.turned(FILLER if numbered else "cancel")
        elif piece.kind == NUMBER:
            follows = pieces[after] if after >= 0 else None
            within = after > now + 1  # "5 in mx": a word stands between
            hosts = (host if numbered else None, follows if _leads(follows, within) else None)
            if any(each and _may_bear(each, piece.value) for each in hosts):
                value = piece.value
                pieces[now] = piece.turned("cancel_number", value, f"number {value}")
            else:
                pieces[now] = piece.turned(UNREAD)


def _leads(follows: Piece | None, within: bool) -> bool:
    """Whether a cancel takes the number before it: a cross only one that is said to be in it."""
    if follows is None or follows.kind != "cancel":
        return False
    return follows.value in ("numeral", "duplex") or (follows.value == "maltese_cross" and within)


def _may_bear(host: Piece, number: str) -> bool:
    """Crosses were numbered 1 to 12 only."""
    return len(number) <= 3 and (host.value != "maltese_cross" or int(number) < 13)


def _high_values(pieces: list[Piece]) -> None:
    """On a 5s, 10s or £1 the Maltese cross is the watermark; on the 6d VR is."""
    values = {piece.value for piece in pieces if piece.kind == "denomination"}
    for number, piece in enumerate(pieces):
        if piece.kind == "cancel" and piece.value == "maltese_cross" and values & _HIGH:
            pieces[number] = piece.turned("watermark", words="watermark Maltese cross")
        elif piece.kind == "corners" and piece.value == "vr" and "6d" in values:
            pieces[number] = piece.turned("watermark", "vr", "watermark VR")


def _initials(pieces: list[Piece], folded: str) -> None:
    """SC or LC beside a gauge is a crown's initials, unless a multiple lists its letters; BW of a high
    value is its printer's, WW of an embossed stamp its engraver's; EL of a letter without a stamp is
    "entire letter"."""
    kinds = {piece.kind for piece in pieces}
    several = "multiple" in kinds and sum(piece.kind == "letters" for piece in pieces) > 1
    bare = "stampless" in kinds or not kinds & {"denomination", "colour", "plate"}
    high = {piece.value for piece in pieces if piece.kind == "series"} & {"castle", "seahorse"}
    for number, piece in enumerate(pieces):
        if piece.kind != "letters":
            continue
        if piece.value == "WW" and any(each.value == "embossed" for each in pieces):
            pieces[number] = piece.turned(FILLER)
        elif piece.value == "BW" and high:
            pieces[number] = piece.turned(
                "printer", "Bradbury Wilkinson", "printed by Bradbury Wilkinson"
            )
        elif piece.value == "EL" and (bare or whole_line.before_stamps(pieces)):
            if number and CUED.fullmatch(folded[pieces[number - 1].start : pieces[number - 1].end]):
                continue
            pieces[number] = piece.turned("attachment", "entire", "entire letter")
    if several:
        return
    solid = [number for number, piece in enumerate(pieces) if piece.kind != FILLER]
    for rank, number in enumerate(solid):
        piece = pieces[number]
        beside = {pieces[near].kind for near in solid[max(rank - 1, 0) : rank + 2]}
        if piece.kind == "letters" and piece.value in _CROWNS and beside & {"gauge", "separation"}:
            value, words = _CROWNS[piece.value]
            pieces[number] = piece.turned("watermark", value, words)


_CROWNS = {
    "SC": ("small_crown", "watermark small crown"),
    "LC": ("large_crown_1|large_crown_2", "watermark large crown"),
}


def _centuries(pieces: list[Piece]) -> None:
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
