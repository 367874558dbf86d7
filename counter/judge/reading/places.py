"""Towns, where the letter went, and backstamps: names are known by the words beside them."""

from __future__ import annotations

from counter.judge.reading.piece import FILLER, PAUSE, UNREAD, Piece

_CUES_BEFORE = frozenset(
    {"cancel", "cancel_colour", "cancel_number", "cancel_type", "town", "backstamp_cue", "mark_colour"}
)
_NAMELESS = frozenset({"maltese_cross", "pen", "none"})  # cancels that name no town
_ON_COVER = frozenset({"cancel", "tied", "attachment", "mark", "franking", "backstamp_cue"})


def settle(pieces: list[Piece], folded: str) -> list[Piece]:
    """Name unknown words that stand where a town stands; tell where from and where to."""
    pieces = _unknown_towns(pieces, folded)
    prefix = ""
    for number, piece in enumerate(pieces):
        if piece.kind in ("town", "abroad"):
            pieces[number] = _place(piece, prefix)
        if piece.kind not in ("town", "abroad", PAUSE):
            prefix = folded[piece.start : piece.end] if piece.kind == FILLER else ""
    _backstamps(pieces)
    return pieces


def _place(piece: Piece, prefix: str) -> Piece:
    name = piece.value
    if prefix == "to":
        if piece.kind == "abroad":
            return piece.turned("destination", name, f"to {name}")
        return piece.turned("to_town", name, f"to {name}")
    if piece.kind == "abroad" and prefix != "from":
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
    for number, piece in enumerate(pieces):
        if piece.kind == UNREAD and _like_a_name(folded[piece.start : piece.end]):
            before = done[-1] if done else None
            after = pieces[number + 1] if number + 1 < len(pieces) else None
            if before and before.kind == "town" and before.other and piece.start - before.end <= 1:
                before.end, before.value = piece.end, ""
                continue
            if _cued(before, after, folded, cover, named):
                town = piece.turned("town")
                town.other = piece  # marks a name that was not listed, and may have more words
                done.append(town)
                continue
        done.append(piece)
    for piece in done:
        if piece.kind == "town" and piece.other:
            piece.value = piece.words = folded[piece.start : piece.end].title()
    return done


def _like_a_name(word: str) -> bool:
    return len(word) > 2 and word.replace("'", "").isalpha()


def _cued(before: Piece | None, after: Piece | None, folded: str, cover: bool, named: bool) -> bool:
    """Whether an unknown word stands where a town does; `named`: a town is to be expected at all."""
    if named and before and before.kind in _CUES_BEFORE:
        return True
    if before and before.kind == FILLER and folded[before.start : before.end] in ("from", "to", "at"):
        return cover or folded[before.start : before.end] != "at"
    return bool(cover and after and after.kind == "date" and len(after.value) > 4)


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
        if date is None:
            pieces[number] = piece.turned("backstamp", "present", "backstamped")
        else:
            pieces[number] = piece.turned(FILLER)
            pieces[date] = pieces[date].turned("backstamp", words=f"backstamp {pieces[date].words}")
