"""Check letters among typed words: KC, K-C, "K C", CKKC, CK-KC, KC-KF, "lettered kc"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from counter.judge.reading.line import Line
from counter.judge.reading.piece import FILLER, PAUSE, WHERE, Piece
from counter.reference.vocabulary import Vocabulary
from counter.values.letters import counts, letters_at, lower_pair, mirrored, spoken

#: Words after which letters stand; after the sure ones they are nothing else.
CUES = frozenset({"lettered", "lettering", "position", "pos", "letters", "letter", "ltrs", "checks"})
_SURE = frozenset({"lettered", "lettering", "position", "pos"})
_TWO = frozenset({"check letters", "corner letters"})
_BETWEEN = re.compile(r"\s?[-./ ]\s?|\.\s?")
_JOINED = re.compile(r"\s?[-/]\s?|\s+to\s+|\s+thru\s+")
_PAIR_SIGN = re.compile(r"\s?[-/]\s?")
#: Two letters that are short forms of the trade too.
INITIALS = frozenset(
    ("lc", "sc", "og", "lh", "nh", "ng", "pl", "bw", "ww", "el", "mm", "um", "fu", "gu", "vf", "dl")
) | {
    "dk",
    "rd",
    "bl",
    "bk",
    "gd",
    "pc",
    "sg",
    "cr",
    "se",
    "ne",
    "ed",
    "hr",
    "tl",
    "ms",
    "mx",
    "pr",
    "gk",
}


@dataclass(slots=True)
class Lettering:
    """Letters from a token on: the piece, the token after it, and the circumstances of its cost."""

    piece: Piece
    end: int
    of: str
    when: tuple[str, ...]


def piece_of(letters: str, start: int, end: int) -> Piece:
    """The letters as a piece, with the place they count."""
    row, column = counts(letters)
    said = f"letters {spoken(letters)}: row {row}, column {column}"
    return Piece("letters", letters, said, start, end)


def letterings_at(line: Line, at: int) -> Iterator[Lettering]:
    """What letters the line may have from token number `at` on."""
    token = line.tokens[at]
    text = token.text
    if not (text.isascii() and text.isalpha()) or len(text) > 4:
        return
    if len(text) == 1:
        yield from _one_by_one(line, at)
    elif len(text) == 2:
        piece = piece_of(text.upper(), token.start, token.end)
        yield Lettering(piece, at + 1, "letters", tuple(_pair_when(line, at, at + 1)))
    elif len(text) == 4:
        yield from _four(line, at, text)
    if len(text) == 2 and (both := _two_pairs(line, at)):
        yield both


def _one_by_one(line: Line, at: int) -> Iterator[Lettering]:
    """K C, K/C, K-C; d k k d."""
    letters, end = line.tokens[at].text, at
    while len(letters) < 4 and end + 1 < len(line.tokens):
        ahead = end + 1 + line.is_pause(end + 1)
        if ahead >= len(line.tokens) or len(line.tokens[ahead].text) != 1 or line.tokens[ahead].sign:
            return
        if not line.tokens[ahead].text.isalpha():
            return
        between = line.folded[line.tokens[end].end : line.tokens[ahead].start]
        if not _BETWEEN.fullmatch(between):
            return
        letters, end = letters + line.tokens[ahead].text, ahead
        piece = piece_of(letters.upper(), line.tokens[at].start, line.tokens[end].end)
        if len(letters) == 2:
            joined = "slash or hyphen between" if between.strip() in ("/", "-") else "one by one"
            when = [*_pair_when(line, at, end + 1), joined]
            yield Lettering(piece, end + 1, "letters", tuple(when))
        elif len(letters) == 4 and (mirrored(letters) or _cue(line, at)):
            when = ["mirrored"] if mirrored(letters) else []
            yield Lettering(piece, end + 1, "four letters", (*when, *_capitals(line, at)))


def _four(line: Line, at: int, text: str) -> Iterator[Lettering]:
    letters = text.upper()
    known = letters in line.vocabulary.lettering_errors
    on_sheet = _on_sheet(letters) and _on_sheet(letters[:2][::-1])
    if not known and not on_sheet and _cue(line, at) not in _SURE:
        return
    when = []
    if mirrored(letters) or known:
        when.append("mirrored")
    if line.lettered_value:
        when.append("lettered value")
    if text in line.vocabulary.grammar.english or text in line.vocabulary.tree.next:
        when.append("a word")
    if _cue(line, at):
        when.append("cued")
    when += _capitals(line, at)
    token = line.tokens[at]
    yield Lettering(piece_of(letters, token.start, token.end), at + 1, "four letters", tuple(when))


def _two_pairs(line: Line, at: int) -> Lettering | None:
    """LH-HL, EB/BE, "HL LH": the four letters of one stamp, whatever the pairs mean alone."""
    first = line.tokens[at]
    ahead = at + 1 + line.is_pause(at + 1)
    if ahead >= len(line.tokens) or len(line.tokens[ahead].text) != 2:
        return None
    second = line.tokens[ahead]
    if not (second.text.isascii() and second.text.isalpha()):
        return None
    between = line.folded[first.end : second.start]
    if between.isspace() and at and line.tokens[at - 1].text == "-":
        return None  # the end of a run: KC-KE EK
    letters = (first.text + second.text).upper()
    known = letters in line.vocabulary.lettering_errors
    if not (mirrored(letters) or known) or letters[0] == letters[1]:
        return None
    if not (_on_sheet(letters) or _on_sheet(letters[:2])):
        return None
    if not (_PAIR_SIGN.fullmatch(between) or between.isspace()):
        return None
    words = {first.text, second.text} <= (line.vocabulary.never_letters | line.vocabulary.fillers)
    alike = first.apart == second.apart and (between.isspace() or not words)
    if not alike and not line.lettered_value:
        return None
    when = ["mirrored"]
    if words and not (first.apart or line.lettered_value):
        when.append("a word")
    piece = piece_of(letters, first.start, second.end)
    return Lettering(piece, ahead + 1, "four letters", (*when, *_capitals(line, at)))


def _pair_when(line: Line, at: int, end: int) -> Iterator[str]:
    """The circumstances of two letters that stand from token `at` up to token `end`."""
    text = "".join(token.text for token in line.tokens[at:end] if not token.sign)
    cue = _cue(line, at)
    if cue == "letter" and _small_word(line, text) and not line.tokens[at].apart:
        cue = ""  # a letter of 3 May 1842
    if cue:
        yield "cued"
    else:
        yield from _capitals(line, at)
    if line.lettered_value and not line.unlettered:
        yield "lettered value"
    if line.unlettered and not cue:
        yield "unlettered stamp"
    if line.lists_letters:
        yield "a multiple lists them"
    apart = line.tokens[at].apart
    if not _on_sheet(text.upper()) and cue not in _SURE:
        yield "off the sheet"
    if at == 0 and end == len(line.tokens):
        yield "alone on the line"
    if cue not in _SURE and (text in _TRADE or (text in INITIALS and not apart)):
        yield "trade initials"
    if text in line.vocabulary.where and not cue and _says_where(line, at, end):
        yield "a place on the stamp"
    if _small_word(line, text) and not cue and not apart:
        yield "small word"
        sides = line.of_trade(at - 1) and line.of_trade(end)
        if sides and line.lettered_value and not line.unlettered:
            yield "among words of the trade"


def _says_where(line: Line, at: int, end: int) -> bool:
    """Whether NE or SE stands as a place: at NE, the SE corner."""
    ahead = line.tokens[end].text if end < len(line.tokens) else ""
    return (at > 0 and line.tokens[at - 1].text in ("at", "in", "the", "to")) or ahead in _CORNERS


_CORNERS = frozenset({"corner", "crnr", "cnr", "margin", "side", "edge", "foot", "top"})
_TRADE = frozenset({"lc", "sc", "og", "lh", "nh", "ng", "pl", "mm", "um"})


def _small_word(line: Line, text: str) -> bool:
    words = line.vocabulary
    return text in words.never_letters or text in words.fillers or text in words.where


def _cue(line: Line, at: int) -> str:
    """The word right before that says letters follow, or ""."""
    before = at - 1 - (at > 1 and line.is_pause(at - 1))
    if before < 0:
        return ""
    word = line.tokens[before].text
    return word if word in CUES else ""


def _capitals(line: Line, at: int) -> list[str]:
    return ["capitals in a small line"] if line.tokens[at].apart else []


def _on_sheet(letters: str) -> bool:
    row, column = counts(letters)
    return row <= 20 and column <= 12


def joined(pieces: list[Piece], folded: str, vocabulary: Vocabulary) -> list[Piece]:
    """Neighbouring pairs put together: the four letters of one stamp, or the run of a strip."""
    block = any(piece.kind == "multiple" and piece.value.startswith("block") for piece in pieces)
    several = block or any(piece.kind == "multiple" for piece in pieces)
    done: list[Piece] = []
    used = 0  # letters up to here are put together: the end of one run does not begin another
    for piece in pieces:
        back = 1
        while len(done) > back and back < 3 and _passed(done[-back]):
            back += 1
        before = done[-back] if len(done) >= back else None
        pairs = before and before.kind == piece.kind == "letters"
        if before and pairs and before.start >= used and len(before.value) == len(piece.value) == 2:
            between = folded[before.end : piece.start]
            made = _pair(before, piece, between, vocabulary, block=block, several=several)
            if made:
                done[-back:], used = made, piece.end
                continue
        done.append(piece)
    return done


def _passed(piece: Piece) -> bool:
    return piece.kind in (PAUSE, "choice", FILLER) or piece.value == WHERE


_UPPER = re.compile(r",?\s*(?:lower|bottom|foot|below)\s*(?:letters|pair|corners)?\s*", re.IGNORECASE)


def _pair(
    first: Piece, second: Piece, between: str, vocabulary: Vocabulary, *, block: bool, several: bool
) -> list[Piece]:
    """What two pairs of letters make together; [] when each stands for itself."""
    four = first.value + second.value
    if _UPPER.fullmatch(between):
        return [piece_of(four, first.start, second.end)]
    hyphen = bool(_JOINED.fullmatch(between))
    one_stamp = mirrored(four) or four in vocabulary.lettering_errors
    if one_stamp and (hyphen or (between.isspace() and not several)):
        return [piece_of(four, first.start, second.end)]
    if not hyphen:
        return []
    run = _between_corners(first.value, second.value, block)
    if not run and _half_mirrored(four) and "to" not in between:
        run = [four]
    return [piece_of(each, first.start, second.end) for each in run]


def _half_mirrored(letters: str) -> bool:
    return letters[0] == letters[3] or letters[1] == letters[2]


def _between_corners(first: str, last: str, block: bool) -> list[str]:
    """Every lettering from one to the other along a row or column, or in a block of stamps."""
    (top, left), (foot, right) = counts(lower_pair(first)), counts(lower_pair(last))
    straight = (top == foot) != (left == right)
    if top > foot or left > right or not (straight or (block and top < foot and left < right)):
        return []
    return [
        letters_at(row, column) for row in range(top, foot + 1) for column in range(left, right + 1)
    ]
