"""Towns, where the letter went, and backstamps: names are known by the words beside them."""

from __future__ import annotations

from counter.judge.reading.piece import FILLER, NOTED, PAUSE, PLAIN, UNREAD, WHERE, Piece

_CUES_BEFORE = frozenset(
    {"cancel", "cancel_colour", "cancel_number", "cancel_type", "town", "backstamp_cue", "mark_colour"}
)
_NAMELESS = frozenset({"maltese_cross", "pen", "none"})  # cancels that name no town
_ON_COVER = frozenset({"cancel", "tied", "attachment", "mark", "franking", "backstamp_cue"})
_WAYS = frozenset({"from", "to", "at"})
_IN_NAMES = frozenset({"le", "upon", "super", "under", "cum", "on", "in", "the"})  # Chester le Street


def settle_places(pieces: list[Piece], folded: str) -> list[Piece]:
    """Name unknown words that stand where a town stands; tell where from and where to."""
    pieces = _unknown_towns(pieces, folded)
    prefix = ""
    for number, piece in enumerate(pieces):
        if piece.kind in ("town", "abroad"):
            pieces[number] = _place(piece, prefix)
        if piece.kind not in ("town", "abroad", PAUSE):
            prefix = piece.words if piece.kind in (FILLER, "choice", NOTED) else ""
    _backstamps(pieces)
    return pieces


def _place(piece: Piece, prefix: str) -> Piece:
    name = piece.value
    if prefix == "via":
        return piece.turned(NOTED)
    if prefix == "to":
        if piece.kind == "abroad":
            return piece.turned("destination", name, f"to {name}")
        return piece.turned("to_town", name, f"to {name}")
    if piece.kind == "abroad" and prefix not in ("from", "in", "at"):
        return piece.turned("destination", name, f"to {name}")
    return piece.turned("town", name, name)


def _unknown_towns(pieces: list[Piece], folded: str) -> list[Piece]:
    """An unread word is a town after a cancel, "from", "to" or "at", or before a date on a cover."""
    cover = any(piece.kind in _ON_COVER for piece in pieces)
    named = any(
        piece.kind in _ON_COVER - {"cancel"}
        or (piece.kind == "date" and len(piece.value) > 4)
        or (piece.kind == "cancel" and piece.value not in _NAMELESS)
        for piece in pieces
    )
    done: list[Piece] = []
    number = 0
    while number < len(pieces):
        if (end := _longer_name(pieces, number, folded)) > number:
            name = folded[pieces[number].start : pieces[end - 1].end].title()
            done.append(Piece("town", name, name, pieces[number].start, pieces[end - 1].end))
            number = end
            continue
        end = _name_end(pieces, number, folded)
        before = done[-1] if done else None
        after = pieces[end] if end < len(pieces) else None
        run = pieces[number:end]
        if end > number and _cued(before, after, cover=cover, named=named, plain=_plain_run(run)):
            name = folded[run[0].start : run[-1].end].title()
            done.append(Piece("town", name, name, run[0].start, run[-1].end))
            number = end
            continue
        done.append(pieces[number])
        number += 1
    return done


def _longer_name(pieces: list[Piece], start: int, folded: str) -> int:
    """Where the longer name ends that a known town's begins, "Chester le Street"; `start` for none."""
    if pieces[start].kind != "town":
        return start
    at = start + 1
    while at < len(pieces) and folded[pieces[at].start : pieces[at].end] in _IN_NAMES:
        at += 1
    joined = {folded[piece.start : piece.end] for piece in pieces[start + 1 : at]}
    if not joined - {"on", "in", "the"} and joined != {"on", "the"}:
        return start
    end = _name_end(pieces, at, folded)
    return end if end == at + 1 else start


def _name_end(pieces: list[Piece], start: int, folded: str) -> int:
    """Where a run of words that may be one name ends."""
    end = start
    while end < len(pieces) and pieces[end].kind == UNREAD and pieces[end].value != WHERE:
        word = folded[pieces[end].start : pieces[end].end]
        if len(word) < 3 or not word.replace("'", "").isalpha():
            break
        if end > start and pieces[end].start - pieces[end - 1].end > 1:
            break
        end += 1
    return end


def _plain_run(run: list[Piece]) -> bool:
    """Whether every word is plain English."""
    return all(piece.value == PLAIN for piece in run)


def _cued(before: Piece | None, after: Piece | None, *, cover: bool, named: bool, plain: bool) -> bool:
    """Whether unknown words stand where a town does; `named`: a town is to be expected at all. Plain
    English is no town, unless the day stands right behind it on a cover."""
    dated = bool(cover and after and after.kind == "date" and len(after.value) > 4)
    if plain:
        return dated and before is not None and (before.kind in _CUES_BEFORE or before.words in _WAYS)
    if named and before and before.kind in _CUES_BEFORE:
        return True
    if before and before.kind in (FILLER, "choice") and before.words in _WAYS:
        return cover or before.words != "at"
    return dated


def _backstamps(pieces: list[Piece]) -> None:
    """A date after "backstamp" is the backstamp's; a town between belongs to it too."""
    for number, piece in enumerate(pieces):
        if piece.kind != "backstamp_cue":
            continue
        town = date = None
        for later in range(number + 1, len(pieces)):
            kind = pieces[later].kind
            if kind == "town" and town is None:
                town = later
            elif kind == "date":
                date = later
                break
            elif kind not in (FILLER, PAUSE, "mark_colour", "cancel"):
                break
        if town is not None:
            name = pieces[town].value
            pieces[town] = pieces[town].turned("backstamp_town", words=f"backstamp {name}")
        if date is None or piece.said != "is":
            pieces[number] = _stamped(piece)
        else:
            pieces[number] = piece.turned(FILLER)
            pieces[date] = pieces[date].turned("backstamp", words=f"backstamp {pieces[date].words}")


def _stamped(piece: Piece) -> Piece:
    """A backstamp said to be there, not to be there, or perhaps."""
    if piece.said == "is not":
        none = piece.turned("backstamp", "none", "no backstamp")
        none.said = "is"
        return none
    return piece.turned("backstamp", "present", "backstamped")
