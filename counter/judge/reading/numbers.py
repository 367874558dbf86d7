"""Bare figures and half-said things: the number of a cancel, "or 7" behind a plate, how many there are."""

from __future__ import annotations

import re
from collections.abc import Callable

from counter.judge.reading.clauses import clauses, solid_after, solid_before
from counter.judge.reading.piece import COUNTS, FILLER, NUMBER, PAUSE, UNREAD, Piece
from counter.reference.vocabulary import Vocabulary

Again = Callable[[str], list[Piece]]
_LINKS = frozenset({"choice", "denial", "doubt"})
_REPEATS = frozenset(
    (
        "plate",
        "gauge",
        "die",
        "alphabet",
        "cancel_number",
        "watermark",
        "lines",
        "corners",
        "dots",
        "paper",
    )
) | {"denomination", "watermark_way", "multiple", "charge"}
_LAST = re.compile(r"[^\W_]+$")
_FIRST = re.compile(r"^[^\W_]+")
_LETTERED = frozenset({"1d", "2d"})


def repeated(pieces: list[Piece], folded: str, again: Again) -> None:
    """Give a word behind "or", "not", "but" the rest of what it stands for: "plate 6 or 7" is "plate 6
    or plate 7", "small or large crown" is "small crown or large crown". `again` reads a few words."""
    for number, piece in enumerate(pieces):
        if piece.kind not in (NUMBER, UNREAD, FILLER, "letters", "shade", "quantity"):
            continue
        typed = folded[piece.start : piece.end]
        if piece.kind == FILLER and not typed.isalpha():
            continue
        before = solid_before(pieces, number, 0)
        linked = before >= 0 and _links(pieces, before, number)
        host = _host(pieces, before) if linked else -1
        made = host >= 0 and _swapped(pieces[host], _LAST, typed, folded, again)
        if not made and host >= 0 and _denied_before(pieces, host):
            made = _swapped(pieces[host], _FIRST, typed, folded, again)
        if not made and (after := _forward(pieces, number)) >= 0:
            made = _swapped(pieces[after], _FIRST, typed, folded, again)
        if made:
            pieces[number] = piece.turned(made.kind, made.value, made.words)


def _links(pieces: list[Piece], before: int, number: int) -> bool:
    """Whether a link stands before, or a dash or stroke or comma of a list."""
    if pieces[before].kind in _LINKS and pieces[before].value != "?":
        return True
    if _denied_before(pieces, before) and any(piece.value == "," for piece in pieces[before:number]):
        return True
    return pieces[before].kind == "doubt" or (
        number - 1 > before
        and pieces[number - 1].kind == PAUSE
        and pieces[number - 1].value in "-/,"
        and pieces[before].kind in ("plate", "gauge", "die", "alphabet")
        and pieces[number].kind == NUMBER
    )


def _denied_before(pieces: list[Piece], host: int) -> bool:
    """Not plate 7, it's 9; not large crown, small: what follows the comma corrects it."""
    before = solid_before(pieces, host, 0)
    return pieces[host].kind in _REPEATS and before >= 0 and pieces[before].kind == "denial"


def _host(pieces: list[Piece], before: int) -> int:
    """The thing that a word behind a link repeats: the nearest before of a kind that can be."""
    for at in range(before, max(before - 6, -1), -1):
        if pieces[at].kind in _REPEATS:
            return at
        if pieces[at].kind not in (*_LINKS, FILLER, PAUSE, UNREAD, "separation"):
            return -1
    return -1


def _forward(pieces: list[Piece], number: int) -> int:
    """The thing behind a link that a word before it shares its end with: "small or large crown"."""
    link = solid_after(pieces, number, len(pieces))
    if link < 0 or pieces[link].kind != "choice" or pieces[link].value not in ("or", "nor", "and"):
        return -1
    after = solid_after(pieces, link, len(pieces))
    return after if after >= 0 and pieces[after].kind in _REPEATS else -1


def _swapped(host: Piece, which: re.Pattern[str], word: str, folded: str, again: Again) -> Piece | None:
    """The host's words with their last, or first, changed for another: read again as the same kind."""
    said = folded[host.start : host.end].strip(" .")
    line = f"gauge {word}" if host.kind == "gauge" else which.sub(word, said, count=1)
    if line in (said, word):
        return None
    made = [piece for piece in again(line) if not piece.silent]
    return made[-1] if len(made) == 1 and made[0].kind == host.kind else None


def numbered(pieces: list[Piece], folded: str, vocabulary: Vocabulary) -> None:
    """Give each bare figure to what it belongs to: a cancel beside it, the stamps counted, the gauge;
    what is left is not understood."""
    for clause in clauses(pieces):
        for number in clause:
            if pieces[number].kind == "numeral cue":
                before = solid_before(pieces, number, clause.start)
                taken = before >= 0 and _bears(pieces, before, vocabulary)
                pieces[number] = pieces[number].turned(FILLER if taken else "cancel")
            elif pieces[number].kind == NUMBER:
                pieces[number] = _figure(pieces, number, clause, vocabulary)
    _counted(pieces, folded)
    _gauges(pieces, vocabulary)
    for number, piece in enumerate(pieces):
        if piece.kind == NUMBER:
            pieces[number] = piece.turned(UNREAD)


def _figure(pieces: list[Piece], number: int, clause: range, vocabulary: Vocabulary) -> Piece:
    """A cancel takes the figure beside it; a cross only one said to be in it or behind it."""
    piece = pieces[number]
    before = solid_before(pieces, number, clause.start)
    while before >= 0 and pieces[before].kind in ("cancel_type", "thing", "town"):
        before = solid_before(pieces, before, clause.start)
    hosts = [before] if before >= 0 and _bears(pieces, before, vocabulary) else []
    after = solid_after(pieces, number, clause.stop)
    while after >= 0 and (pieces[after].kind == "town" or pieces[after].value == "?"):
        after = solid_after(pieces, after, clause.stop)
    if after >= 0 and pieces[after].kind == "cancel":
        within = after > number + 1
        cross = pieces[after].value == "maltese_cross"
        if pieces[after].value in ("numeral", "duplex") or (cross and within):
            hosts.append(after)
    if any(_may_bear(pieces[host], piece.value) for host in hosts):
        return piece.turned("cancel_number", piece.value.upper(), f"number {piece.value.upper()}")
    return piece


def _bears(pieces: list[Piece], number: int, vocabulary: Vocabulary) -> bool:
    return pieces[number].kind == "cancel" and pieces[number].value in vocabulary.numbered


def _may_bear(host: Piece, number: str) -> bool:
    """Crosses were numbered 1 to 12 only."""
    if host.value == "maltese_cross":
        return number.isdigit() and 0 < int(number) < 13
    return len(number) <= 3 or not number.isdigit()


def _counted(pieces: list[Piece], folded: str) -> None:
    """A number before a value counts stamps: "20 penny lilacs", "two 1d reds", "two copies of the 1d"."""
    values = [number for number, piece in enumerate(pieces) if piece.kind == "denomination"]
    for number, piece in enumerate(pieces[:-1]):
        typed = folded[piece.start : piece.end]
        loose = piece.kind in (NUMBER, FILLER, UNREAD) and COUNTS.get(typed)
        value = next((each for each in values if each > number), -1)
        if not loose or value < 0 or typed == "one":
            continue
        if _COPIES.fullmatch(folded, piece.end, pieces[value].start):
            pieces[number] = piece.turned("quantity", str(loose), f"{loose} of them")
            for between in range(number + 1, value):
                pieces[between] = pieces[between].turned(FILLER)


_COPIES = re.compile(r"\s(?:(?:copies|examples|singles|stamps)\s(?:of\s)?(?:the\s)?)?")


def _gauges(pieces: list[Piece], vocabulary: Vocabulary) -> None:
    """14 or 16 beside the crown or the stars of a line-engraved stamp is the gauge."""
    kinds = {piece.kind for piece in pieces}
    values = {piece.value for piece in pieces if piece.kind == "denomination"}
    if "gauge" in kinds or not (values <= _LETTERED and kinds & {"watermark", "corners"}):
        return
    for number, piece in enumerate(pieces):
        if piece.kind == NUMBER and piece.value in ("14", "16"):
            pieces[number] = piece.turned("gauge", piece.value, f"gauge {piece.value}")
