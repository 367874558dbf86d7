"""What the line says of each thing: that it is so, is not so, or may be so. One grammar for every kind.

A denial governs the next thing and runs on over "or", "nor", and commas where several of a kind may be;
"but", a new clause or a new kind of thing ends it. A doubt governs what it stands before, or else after.
Two values joined by "or" are one observation of alternatives.
"""

from __future__ import annotations

from collections.abc import Iterator

from counter.judge.observation import Said
from counter.judge.reading.clauses import clauses, solid_after, solid_before
from counter.judge.reading.piece import FILLER, NOTED, NUMBER, PAUSE, UNREAD, WHERE, Piece
from counter.reference.grammar import Grammar

_LINKS = frozenset({"choice", "denial", "doubt", "hedge"})
_STATE = frozenset({"fault", "repair", "condition"})
_PARTS = frozenset(
    {"shade", "colour", "cancel_colour", "mark_colour", "separation", "quantity", "cancel_type"}
)
_PASSED = frozenset({FILLER, "thing", NOTED, UNREAD, NUMBER})
_CUES = frozenset({"a_cancel", "backstamp_cue"})  # observations once all is settled


def modified(pieces: list[Piece], grammar: Grammar) -> list[Piece]:
    """The pieces with what is said of each; alternatives made one."""
    _denied(pieces, grammar)
    _doubted(pieces)
    _hedged(pieces, grammar)
    pieces = _chosen(pieces, grammar)
    _beside(pieces, grammar)
    return [_denial_meant(piece, grammar) for piece in pieces]


# --- denial


def _denied(pieces: list[Piece], grammar: Grammar) -> None:
    for clause, number in _words(pieces, "denial"):
        targets = []
        if pieces[number].value == "verb":
            targets = _verbs(pieces, number, clause)
        if not targets:
            targets = _governed(pieces, number, grammar)
        if not targets:
            targets = _behind(pieces, number, clause)
        for target in targets:
            _say(pieces[target], "is not")
    for number, piece in enumerate(pieces):
        if piece.kind == "choice" and piece.value == "nor":
            for target in _governed(pieces, number, grammar):
                pieces[target].said = "is not"
        elif _freed(pieces, number):
            pieces[number - 1 - (pieces[number - 1].kind == PAUSE)].said = "is not"
            pieces[number] = piece.turned(FILLER)


def _freed(pieces: list[Piece], number: int) -> bool:
    """Thin free, crease-free: "free" right behind a fault denies it."""
    if pieces[number].kind != "mark" or pieces[number].value != "free" or not number:
        return False
    hyphen = number > 1 and pieces[number - 1].kind == PAUSE and pieces[number - 1].value == "-"
    return pieces[number - 1 - hyphen].kind in _STATE


def _words(pieces: list[Piece], kind: str) -> Iterator[tuple[range, int]]:
    """Every piece of a kind with its clause."""
    if not any(piece.kind == kind for piece in pieces):
        return
    for clause in clauses(pieces):
        for number in clause:
            if pieces[number].kind == kind:
                yield clause, number


def _verbs(pieces: list[Piece], number: int, clause: range) -> list[int]:
    """None of the crosses ties: the verb of the clause, whatever stands between."""
    return [at for at in range(number + 1, clause.stop) if pieces[at].kind == "tied"][:1]


def _governed(pieces: list[Piece], number: int, grammar: Grammar) -> list[int]:
    """What a denial in front governs: the first thing with its parts, and what runs on from it."""
    found: list[int] = []
    linked = comma = False
    for at in range(number + 1, len(pieces)):
        piece = pieces[at]
        if piece.seen or piece.kind in _CUES:
            if found and not (
                _goes_on(piece, _group(pieces[found[-1]]), grammar, linked=linked, comma=comma)
                or (not linked and not comma and _part_of(pieces, found[-1], at))
            ):
                break
            found.append(at)
            linked = comma = False
        elif _ends(piece, begun=bool(found), running=linked or comma):
            break
        else:
            linked = linked or piece.kind == "choice"
            comma = comma or (piece.kind == PAUSE and piece.value == ",")
    return found


def _ends(piece: Piece, *, begun: bool, running: bool) -> bool:
    """Whether a piece that is no observation ends what a denial governs."""
    if piece.kind == PAUSE:
        return piece.value in ";:()" or (not begun and piece.value not in "-/.'\"")
    if piece.kind == "choice":
        return piece.value in ("but", "to")
    if piece.kind in ("denial", "doubt"):
        return begun or piece.kind == "denial"
    return begun and (piece.kind == UNREAD or running)


def _goes_on(piece: Piece, group: str, grammar: Grammar, *, linked: bool, comma: bool) -> bool:
    """Whether a denial of one kind of thing runs on to this one."""
    if _group(piece) != group:
        return False
    return linked or (comma and piece.kind in grammar.lists) or (not comma and group == "state")


def _group(piece: Piece) -> str:
    return "state" if piece.kind in _STATE else piece.kind


def _part_of(pieces: list[Piece], before: int, at: int) -> bool:
    """Whether two pieces are one thing: "red mx", "deep blue", the cross and its closer kind."""
    first, second = pieces[before], pieces[at]
    if (first.start, first.end) == (second.start, second.end):
        return True
    return first.kind in _PARTS or second.kind == "cancel_type"


def _behind(pieces: list[Piece], number: int, clause: range) -> list[int]:
    """A denial that governs nothing denies what stands before it: "thins: none", "cert? no"."""
    word = pieces[number].words
    if word not in ("none", "not"):
        return []
    first = max(number - 3, 0)
    before = solid_before(pieces, number, first)
    while before >= first and pieces[before].kind == "doubt":
        before = solid_before(pieces, before, first)
    alone = solid_before(pieces, number, clause.start) < 0
    if before < 0 or not pieces[before].seen:
        return []
    marks = {piece.value for piece in pieces[before + 1 : number]}
    return [before] if (alone and marks & {":", "?", "-"}) or (not alone and word == "none") else []


def _say(piece: Piece, said: Said) -> None:
    """Set what is said; a denial doubted, or a doubt denied, is a doubt."""
    piece.said = (
        said if piece.said == "is" else ("is not" if piece.said == said == "is not" else "perhaps")
    )


def _denial_meant(piece: Piece, grammar: Grammar) -> Piece:
    """A denied thing that has a name of its own: not tied, no certificate."""
    if piece.said != "is not":
        return piece
    meant = grammar.becomes.get((piece.kind, piece.value))
    if meant is None:
        return piece
    turned = piece.turned(*meant)
    turned.said = "is"
    return turned


# --- doubt


def _doubted(pieces: list[Piece]) -> None:
    for clause, number in _words(pieces, "doubt"):
        for target in _in_doubt(pieces, number, clause):
            if pieces[target].said == "is":
                pieces[target].said = "perhaps"


def _in_doubt(pieces: list[Piece], number: int, clause: range) -> list[int]:
    if pieces[number].value == "?":
        before = _at_hand(pieces, number, -1, 0)
        if before >= 0:
            return _whole(pieces, before, 0)
        if (near := solid_before(pieces, number, 0)) >= 0 and pieces[near].kind == NOTED:
            return []  # a re-entry? doubts the re-entry alone
        after = _at_hand(pieces, number, 1, len(pieces))
        return [after] if after >= 0 else []
    for at in range(number + 1, clause.stop):
        piece = pieces[at]
        if piece.seen or piece.kind in _CUES:
            return _thing_from(pieces, at, clause.stop)
        if piece.kind == NOTED:
            return []
        if piece.kind == "choice" and piece.value == "but":
            break
    before = solid_before(pieces, number, clause.start)
    while before >= clause.start and pieces[before].kind in (*_PASSED, *_LINKS):
        before = solid_before(pieces, before, clause.start)
    if before < clause.start and all(
        each.kind in ("doubt", FILLER, PAUSE) for each in pieces[number : clause.stop]
    ):
        before = solid_before(pieces, clause.start, 0)  # tied, I think, at foot; tied (I think)
        return _whole(pieces, before, 0) if before >= 0 and pieces[before].seen else []
    return _whole(pieces, before, clause.start) if before >= 0 else []


def _at_hand(pieces: list[Piece], number: int, step: int, edge: int) -> int:
    """The thing right beside a question mark, a bracket or space between at most."""
    at = number + step
    while (at >= edge if step < 0 else at < edge) and pieces[at].silent:
        if pieces[at].kind == PAUSE and pieces[at].value in ",;":
            return -1
        at += step
    inside = at >= edge if step < 0 else at < edge
    return at if inside and pieces[at].seen else -1


def _thing_from(pieces: list[Piece], first: int, end: int) -> list[int]:
    """A thing with its parts from its first piece on: "maybe red mx" doubts cross and colour."""
    found = [first]
    for at in range(first + 1, end):
        piece = pieces[at]
        if piece.kind == PAUSE or piece.kind in _LINKS or not piece.seen:
            break
        if not _part_of(pieces, found[-1], at):
            break
        found.append(at)
    return found


def _whole(pieces: list[Piece], last: int, first: int) -> list[int]:
    """A thing with its parts up to its last piece: the observations of the very same words."""
    same = (pieces[last].start, pieces[last].end)
    return [
        at
        for at in range(first, last + 1)
        if pieces[at].seen and (pieces[at].start, pieces[at].end) == same
    ]


def _hedged(pieces: list[Piece], grammar: Grammar) -> None:
    """Hardly tied is perhaps tied; hardly creased is not creased; "just" says nothing but of a tie."""
    for clause, number in _words(pieces, "hedge"):
        after = solid_after(pieces, number, clause.stop)
        if after < 0 or not pieces[after].seen:
            continue
        if pieces[after].kind == "tied":
            pieces[after].said = "perhaps"
        elif pieces[number].words in ("hardly", "not quite"):
            for target in _governed(pieces, number, grammar):
                pieces[target].said = "is not" if pieces[number].words == "hardly" else "perhaps"
        elif pieces[number].words in ("almost", "nearly"):
            pieces[after].said = "perhaps"


# --- choice


def _chosen(pieces: list[Piece], grammar: Grammar) -> list[Piece]:
    """Values of one kind joined by "or" made one observation; a run of figures likewise: "pl 5-7"."""
    done: list[Piece] = []
    number = 0
    while number < len(pieces):
        piece = pieces[number]
        link = solid_after(pieces, number, len(pieces)) if piece.seen else -1
        other = _other(pieces, number, link)
        if other < 0:
            done.append(piece)
            number += 1
            continue
        second = pieces[other]
        if piece.kind not in grammar.alternatives or piece.said != second.said:
            for each in (piece, second):
                each.said = "perhaps" if each.said == "is" else each.said
            done.append(piece)
            number += 1
            continue
        pieces[other] = _joined(piece, second, ranged=_ranged(pieces, number, other))
        number = other
    return done


def _other(pieces: list[Piece], number: int, link: int) -> int:
    """The number of the other value of a choice that begins with a piece, or -1."""
    piece = pieces[number]
    if not piece.seen:
        return -1
    other = -1
    if link >= 0 and pieces[link].kind == "choice" and pieces[link].value in ("or", "nor"):
        other = solid_after(pieces, link, len(pieces))
        while (
            other >= 0 and pieces[other].kind in ("doubt", "separation") and piece.kind != "separation"
        ):
            other = solid_after(pieces, other, len(pieces))
    elif link >= 0 and _ranged(pieces, number, link):
        other = link
    elif link >= 0 and pieces[link].kind == "choice" and pieces[link].value == "to":
        other = solid_after(pieces, link, len(pieces))
        other = other if other >= 0 and _ranged(pieces, number, other) else -1
    if (
        other < 0
        or pieces[other].kind != piece.kind
        or ("|" in piece.value and piece.kind != "watermark" and not _plain_list(piece))
    ):
        return -1
    return other


def _plain_list(piece: Piece) -> bool:
    return piece.kind not in ("reign",)


def _ranged(pieces: list[Piece], number: int, other: int) -> bool:
    """Whether two plates have only a dash, a stroke, a comma or "to" between them, as "pl 5-7"."""
    if pieces[number].kind != "plate" or pieces[other].kind != "plate":
        return False
    between = [piece for piece in pieces[number + 1 : other] if piece.kind != FILLER]
    return bool(between) and all(
        (piece.kind == PAUSE and piece.value in "-/")
        or (piece.kind == "choice" and piece.value == "to")
        for piece in between
    )


def _joined(first: Piece, second: Piece, *, ranged: bool) -> Piece:
    values = [*first.value.split("|"), *second.value.split("|")]
    if ranged:
        values = _run(values[0], values[-1]) or values
    words = f"{first.words} or {second.words}"
    value = "|".join(dict.fromkeys(values))
    return Piece(
        first.kind, value, words, first.start, second.end, first.slip or second.slip, first.said
    )


def _run(first: str, last: str) -> list[str]:
    """The plates from one to another: 5 to 7, 1a to 1c; none where there is no such run."""
    if first.isdigit() and last.isdigit() and int(first) < int(last) <= int(first) + 12:
        return [str(each) for each in range(int(first), int(last) + 1)]
    if first[:-1] == last[:-1] and first[-1:].isalpha() and first[-1] < last[-1:]:
        return [first[:-1] + chr(each) for each in range(ord(first[-1]), ord(last[-1]) + 1)]
    return []


# --- what stands beside


def _beside(pieces: list[Piece], grammar: Grammar) -> None:
    """What decides is only perhaps so where it is mended, or a word beside it was not read."""
    for number, piece in enumerate(pieces):
        if piece.said != "is" or not piece.seen:
            continue
        if (piece.slip and piece.kind in grammar.mended) or (
            piece.kind in grammar.deciding
            and any(
                0 <= at < len(pieces) and _not_read(pieces[at], piece) for at in _sides(pieces, number)
            )
        ):
            piece.said = "perhaps"


def _not_read(word: Piece, beside: Piece) -> bool:
    """Whether a word is not understood: one for a place says nothing of a fault, "just" much of a tie."""
    return word.kind == UNREAD and (word.value != WHERE or beside.kind == "tied")


def _sides(pieces: list[Piece], number: int) -> Iterator[int]:
    """The numbers of the pieces next to one, small words between looked through, pauses not."""
    for step in (-1, 1):
        at = number + step
        while 0 <= at < len(pieces) and pieces[at].kind == FILLER:
            at += step
        yield at
