"""Whose colour: the stamp's, its cancel's, a mark's, the paper's, or that of a thing not judged here.

Each colour belongs to the nearest thing of its own clause. What belongs to a thing that is no stamp is
understood and not used; what belongs to a word not understood is not understood either.
"""

from __future__ import annotations

from dataclasses import dataclass

from counter.judge.reading.clauses import clauses, solid_after, solid_before
from counter.judge.reading.piece import FILLER, NOTED, PAUSE, PLAIN, UNREAD, WHERE, Piece
from counter.reference.vocabulary import Vocabulary

STAMP, CANCEL, MARK, PAPER, THING, UNKNOWN = "stamp", "cancel", "mark", "paper", "thing", "unknown"
_OWNERS = {
    **dict.fromkeys(("denomination", "series", "quantity", "nature", "reign"), STAMP),
    **dict.fromkeys(
        ("multiple", "plate", "letters", "separation", "gauge", "corners", "watermark"), STAMP
    ),
    **dict.fromkeys(
        ("die", "alphabet", "lines", "process", "dots", "overprint", "variety", "tell"), STAMP
    ),
    **dict.fromkeys(
        ("watermark_way", "orientation", "margins", "phosphor", "printer", "subject"), STAMP
    ),
    **dict.fromkeys(("cancel", "a_cancel", "cancel_number", "cancel_type", "tied"), CANCEL),
    **dict.fromkeys(("mark", "backstamp_cue", "charge", "backstamp"), MARK),
    **dict.fromkeys(("attachment", "writing", "stampless", "service", NOTED), THING),
}
_LOOSE = frozenset(("separation", "plate", "letters", "margins", "condition", "gauge", "tied"))
_STAINS = frozenset(
    {"stain", "light_toning", "rubbed", "hinge_remains", "wax", "tape", "stuck_down", "toned"}
)
_LINKS = frozenset({"choice", "denial", "doubt", "hedge"})
_NEAR_WHITE = frozenset({"white", "azure"})
_PAPERS = frozenset(("yellow", "lemon", "rose", "pink", "green", "buff", "blue", "rose-red", "straw")) | {
    "lilac", "orange", "salmon-rose", "grey", "violet"}  # fmt: skip


@dataclass(slots=True)
class _Colour:
    """A colour of a clause: its number among the pieces and whose it is."""

    at: int
    owner: str
    run: int


def owned(pieces: list[Piece], folded: str, vocabulary: Vocabulary) -> None:
    """Turn every colour that is not the stamp's into what it is; drop shades that shade nothing."""
    _white_things(pieces, folded)
    found: list[_Colour] = []
    for clause in clauses(pieces, at_with="with"):
        found += _of_clause(pieces, clause, folded, vocabulary)
    beside_value = [each for each in found if each.owner == "value"]
    for each in found:
        if each.owner == "value":
            each.owner = STAMP
        elif each.owner in ("", "far") and (beside_value or _other_stamp(found, each)):
            each.owner = UNKNOWN
        elif each.owner in ("", "far"):
            each.owner = STAMP
    for each in found:
        pieces[each.at] = _as_owned(pieces[each.at], each.owner, pieces, vocabulary)
    _shades(pieces)


def _other_stamp(found: list[_Colour], asked: _Colour) -> bool:
    return any(each.owner == STAMP and each.run != asked.run for each in found)


def _of_clause(
    pieces: list[Piece], clause: range, folded: str, vocabulary: Vocabulary
) -> list[_Colour]:
    """The colours of a clause with their owners: "value" for one beside a face value, "far" for the
    stamp's by mere nearness, "" where the clause names nothing it could belong to."""
    found: list[_Colour] = []
    at = clause.start
    while at < clause.stop:
        if pieces[at].kind != "colour":
            at += 1
            continue
        run = _run(pieces, at, clause)
        owners = _owners(pieces, run, clause, folded, vocabulary)
        found += [_Colour(number, owner, at) for number, owner in zip(run, owners, strict=True)]
        at = run[-1] + 1
    return found


def _run(pieces: list[Piece], at: int, clause: range) -> list[int]:
    """The numbers of colours that follow each other, with shades, "and", "or", "not" between."""
    run, step = [at], at + 1
    while step < clause.stop:
        piece = pieces[step]
        if piece.kind == "colour":
            run.append(step)
        elif piece.kind not in ("shade", *_LINKS) and not _stroke(piece):
            break
        step += 1
    return run


def _stroke(piece: Piece) -> bool:
    return piece.kind == PAUSE and piece.value in "-/&+"


def _owners(
    pieces: list[Piece], run: list[int], clause: range, folded: str, vocabulary: Vocabulary
) -> list[str]:
    before, after = _neighbour(pieces, run[0], clause, -1), _neighbour(pieces, run[-1], clause, 1)
    last = _owner_of(pieces, after, vocabulary)
    linked = _linked(pieces, run)
    again = folded.startswith((" one", " ones"), pieces[run[-1]].end) or _alone_behind_but(
        pieces, clause
    )
    if again and clause.start > 0:  # not a red cross, a black one; not red but black
        return [_before_clause(pieces, clause.start, vocabulary)] * len(run)
    if (
        last == THING
        and _word_before(pieces, run[0], clause) == "in"
        and _adjacent(pieces, run[-1], after)
    ):
        return [THING] * len(run)  # prepaid 1d in red ink
    if _of_value(pieces, before, run, folded):
        if len(run) == 1 or last in ("", STAMP) or not _adjacent(pieces, run[-1], after):
            return ["value"] * len(run)
        cross = linked and pieces[after].value != "maltese_cross" and last == CANCEL
        if cross or (not vocabulary.colours[pieces[run[-1]].value].cancel and last == CANCEL):
            return ["value"] * len(run)
        return ["value"] * (len(run) - 1) + [last]
    owner = _single(pieces, run, clause, folded, vocabulary)
    if len(run) > 1 and not linked and owner == CANCEL and _free(pieces, run, vocabulary):
        return [""] * (len(run) - 1) + [owner]
    return [owner] * len(run)


def _alone_behind_but(pieces: list[Piece], clause: range) -> bool:
    """Whether a clause is "but" and a colour."""
    solid = [pieces[number] for number in clause if not pieces[number].silent]
    but = bool(solid) and solid[0].kind == "choice" and solid[0].value == "but"
    return but and all(piece.kind in ("colour", "shade") for piece in solid[1:])


def _before_clause(pieces: list[Piece], start: int, vocabulary: Vocabulary) -> str:
    """The owner named last before a clause."""
    owners = (_owner_of(pieces, at, vocabulary) for at in range(start - 1, -1, -1))
    return next((each for each in owners if each), "")


def _free(pieces: list[Piece], run: list[int], vocabulary: Vocabulary) -> bool:
    """Whether the last of several colours can be an ink's."""
    return bool(vocabulary.colours[pieces[run[-1]].value].cancel)


def _linked(pieces: list[Piece], run: list[int]) -> bool:
    between = pieces[run[0] : run[-1]]
    return any(piece.kind in _LINKS or _stroke(piece) for piece in between)


def _of_value(pieces: list[Piece], before: int, run: list[int], folded: str) -> bool:
    """Whether a colour stands right behind a face value, or a name of a stamp."""
    if before < 0 or pieces[before].kind != "denomination":
        return False
    return all(
        piece.kind in ("shade", "choice", *_LINKS) or piece.words in _TOUCHING
        for piece in pieces[before + 1 : run[0]]
        if piece.kind != PAUSE
    )


_TOUCHING = frozenset({"very", "in", "v", "is", "a", "good", "nice", "lovely"})


def _single(
    pieces: list[Piece], run: list[int], clause: range, folded: str, vocabulary: Vocabulary
) -> str:
    """The owner of colours that stand behind no value."""
    lead = _word_before(pieces, run[0], clause)
    before, after = _neighbour(pieces, run[0], clause, -1), _neighbour(pieces, run[-1], clause, 1)
    behind = _owner_of(pieces, after, vocabulary)
    ahead = _owner_of(pieces, before, vocabulary)
    touches = _adjacent(pieces, run[-1], after) and not folded.startswith("on ", pieces[after].start)
    known = ahead in (CANCEL, MARK, THING) and _adjacent(pieces, before, run[0])
    if _stands_before_tie(pieces, run, clause, after) and ahead == STAMP and touches:
        return "far" if _adjacent(pieces, before, run[0]) else behind
    if behind and touches and not (behind == STAMP and pieces[after].kind in _LOOSE):
        if pieces[after].kind == "denomination":
            if not (lead == "in" and ahead):
                return "value"
        elif not (behind == UNKNOWN and (known or (ahead and lead == "in"))):
            return behind
    if lead == "on":
        return PAPER if before >= 0 else ""
    if lead == "in":
        return _nearest_before(pieces, run[0], clause, vocabulary) or behind
    if ahead and _adjacent(pieces, before, run[0]) and ahead != UNKNOWN:
        return "far" if ahead == STAMP and pieces[before].kind in _LOOSE else ahead
    return _nearest(pieces, run, clause, vocabulary)


def _stands_before_tie(pieces: list[Piece], run: list[int], clause: range, after: int) -> bool:
    """Whether the only colours up to here stand right before "tied": 3d wilding violet tied by a cds."""
    tied = after >= 0 and pieces[after].kind == "tied"
    return tied and not any(piece.kind == "colour" for piece in pieces[clause.start : run[0]])


def _neighbour(pieces: list[Piece], at: int, clause: range, step: int) -> int:
    """The nearest piece that may own a colour; shades, towns, dates and links are looked through."""
    find = solid_after if step > 0 else solid_before
    edge = clause.stop if step > 0 else clause.start
    at = find(pieces, at, edge)
    while at >= 0 and pieces[at].kind in ("shade", "town", "to_town", "date", "short date", *_LINKS):
        at = find(pieces, at, edge)
    return at


def _word_before(pieces: list[Piece], at: int, clause: range) -> str:
    """The small word right before a colour: in, on; "" for another."""
    for number in range(at - 1, clause.start - 1, -1):
        piece = pieces[number]
        if piece.kind == FILLER and piece.words in ("in", "on"):
            return piece.words
        if piece.kind not in ("shade", FILLER):
            return ""
    return ""


def _adjacent(pieces: list[Piece], left: int, right: int) -> bool:
    """Whether only looked-through pieces stand between two, and no small word like "on" or "in"."""
    if left < 0 or right < 0:
        return False
    between = pieces[left + 1 : right]
    return all(piece.kind != FILLER or piece.words in _TOUCHING - {"in"} for piece in between)


def _owner_of(pieces: list[Piece], at: int, vocabulary: Vocabulary) -> str:
    """The class of a piece that a colour may belong to, or ""."""
    if at < 0:
        return ""
    piece = pieces[at]
    if piece.kind == "thing":
        return piece.value
    if piece.kind in ("fault", "condition"):
        return THING if piece.value in _STAINS else ""
    if piece.kind == "cancel" and piece.value == "none":
        return ""
    if piece.kind == "paper":
        return ""
    if piece.kind == UNREAD and piece.value != WHERE:
        return UNKNOWN
    return _OWNERS.get(piece.kind, "")


def _nearest_before(pieces: list[Piece], at: int, clause: range, vocabulary: Vocabulary) -> str:
    for number in range(at - 1, clause.start - 1, -1):
        owner = _owner_of(pieces, number, vocabulary)
        if owner:
            return owner
    return ""


def _nearest(pieces: list[Piece], run: list[int], clause: range, vocabulary: Vocabulary) -> str:
    """The nearest thing of the clause on either side, the one before of two as near."""
    best, near = "", len(pieces)
    for number in clause:
        if run[0] <= number <= run[-1]:
            continue
        away = run[0] - number if number < run[0] else number - run[-1]
        owner = _owner_of(pieces, number, vocabulary)
        if owner and owner != UNKNOWN and away < near:
            best, near = owner, away
    return "far" if best == STAMP else best


def _as_owned(piece: Piece, owner: str, pieces: list[Piece], vocabulary: Vocabulary) -> Piece:
    """The colour as what its owner makes of it."""
    if owner in (STAMP, ""):
        return piece
    if owner == UNKNOWN:
        return piece.turned(UNREAD)
    if owner == PAPER:
        return _paper(piece, pieces)
    ink = vocabulary.colours[piece.value].cancel
    if owner in (CANCEL, MARK) and ink:
        kind = "cancel_colour" if owner == CANCEL else "mark_colour"
        return piece.turned(kind, ink, f"{owner} {ink}")
    return piece.turned(NOTED)


def _paper(piece: Piece, pieces: list[Piece]) -> Piece:
    if piece.value not in _PAPERS:
        return piece.turned(NOTED)
    return piece.turned("paper_colour", piece.value, f"on {piece.value} paper")


def _white_things(pieces: list[Piece], folded: str) -> None:
    """ "White card", "azure envelope": the thing's look, not the stamp's paper."""
    for number, piece in enumerate(pieces[:-1]):
        if (
            piece.kind != "paper"
            or folded[piece.start : piece.end].removeprefix("on ") not in _NEAR_WHITE
        ):
            continue
        after = solid_after(pieces, number, len(pieces))
        if after < 0 or any(each.kind == PAUSE for each in pieces[number:after]):
            continue
        kind = pieces[after].kind
        thing = kind == "thing" and pieces[after].value != PAPER
        if thing or kind == "attachment" or (kind == UNREAD and pieces[after].value == PLAIN):
            pieces[number] = piece.turned(NOTED)


def _shades(pieces: list[Piece]) -> None:
    """A shade is the stamp's where a colour of the stamp is beside it, or nothing else is."""
    solid = [number for number, piece in enumerate(pieces) if not piece.silent]
    for rank, number in enumerate(solid):
        if pieces[number].kind != "shade":
            continue
        near = (rank + 1, rank - 1, rank + 2)
        beside = [pieces[solid[each]].kind for each in near if 0 <= each < len(solid)]
        if beside and beside[0] in ("cancel_colour", "mark_colour", "paper_colour", NOTED, UNREAD):
            pieces[number] = pieces[number].turned(FILLER if beside[0] != UNREAD else UNREAD)
        elif "colour" in beside or any(piece.kind == "colour" for piece in pieces):
            continue
        else:
            coloured = any(kind.endswith("_colour") for kind in beside)
            pieces[number] = pieces[number].turned(FILLER if coloured else UNREAD)
