"""Check letters among typed words: KC, K-C, "K C", CKKC, CK-KC, KC-KF, "lettered kc"."""

from __future__ import annotations

import re

from counter.judge.reading.phrases import Word
from counter.judge.reading.piece import FILLER, PAUSE, Piece
from counter.reference.vocabulary import Vocabulary
from counter.values.letters import counts, letters_at, lower_pair, mirrored, spoken

_CUES = frozenset({"lettered", "lettering", "position", "pos", "letters", "letter", "ltrs"})
CUED = re.compile("|".join(_CUES))
_SURE_CUES = frozenset({"lettered", "lettering", "position", "pos"})
_BETWEEN = re.compile(r"\s?[-./ ]\s?|\.\s?")
_JOINED = re.compile(r"\s?[-/]\s?")
_MIRROR = re.compile(r"([a-z]{2})\s?[-/]\s?([a-z]{2})(?![^\W_])")


def piece_of(letters: str, start: int, end: int) -> Piece:
    """The letters as a piece, with the place they count."""
    row, column = counts(letters)
    said = f"letters {spoken(letters)}: row {row}, column {column}"
    return Piece("letters", letters, said, start, end)


def whole_stamp(folded: str, at: int, vocabulary: Vocabulary) -> Piece | None:
    """Four letters written as two mirrored pairs with a hyphen or slash: LH-HL, whatever LH means."""
    found = _MIRROR.match(folded, at)
    if not found or {found[1], found[2]} & vocabulary.never_letters:
        return None
    letters = (found[1] + found[2]).upper()
    row, column = counts(letters)
    if not mirrored(letters) or row > 20 or column > 24:
        return None
    return piece_of(letters, found.start(), found.end())


def letters_from(
    text: str, folded: str, words: list[Word], at: int, vocabulary: Vocabulary
) -> tuple[list[Piece], int] | None:
    """Letters that begin at word number `at`, after a cue or by themselves, and the last word used."""
    word = words[at].text
    if word in _CUES and at + 1 < len(words):
        found = _run(text, folded, words, at + 1, vocabulary, sure=word in _SURE_CUES, cued=True)
        if found:
            cue = Piece(FILLER, "", "", words[at].start, words[at].end)
            return [cue, found[0]], found[1]
        return None
    found = _run(text, folded, words, at, vocabulary, sure=False, cued=False)
    return ([found[0]], found[1]) if found else None


def _run(
    text: str,
    folded: str,
    words: list[Word],
    at: int,
    vocabulary: Vocabulary,
    *,
    sure: bool,
    cued: bool,
) -> tuple[Piece, int] | None:
    start, end, last = words[at].start, words[at].end, at
    letters = words[at].text
    if len(letters) == 1 and at + 1 < len(words) and len(words[at + 1].text) == 1:
        if not _BETWEEN.fullmatch(folded, end, words[at + 1].start):
            return None
        letters, end, last = letters + words[at + 1].text, words[at + 1].end, at + 1
    letters = letters.upper()
    if len(letters) not in (2, 4) or not (letters.isascii() and letters.isalpha()):
        return None
    typed_as_capitals = text[start:end].isupper()
    small = last == at and letters.lower() in vocabulary.never_letters | vocabulary.fillers
    if small and not sure:
        return None
    if not _likely(letters, vocabulary, cued or typed_as_capitals):
        return None
    piece = piece_of(letters, start, end)
    if letters == "MC" and not cued and not typed_as_capitals:
        piece.other = Piece("cancel", "maltese_cross", "Maltese cross", start, end)
    return piece, last


def _likely(letters: str, vocabulary: Vocabulary, cued: bool) -> bool:
    """Whether a group is letters: on some sheet, or set apart as letters; four must agree."""
    row, column = counts(letters)
    on_a_sheet = row <= 20 and column <= 24
    if len(letters) == 2:
        return on_a_sheet or cued
    if letters in vocabulary.lettering_errors or (mirrored(letters) and on_a_sheet):
        return True
    return cued and _half_mirrored(letters)


def _half_mirrored(letters: str) -> bool:
    return letters[0] == letters[3] or letters[1] == letters[2]


def joined(pieces: list[Piece], folded: str, vocabulary: Vocabulary, block: bool) -> list[Piece]:
    """Neighbouring pairs put together: the four letters of one stamp, or the run of a strip."""
    done: list[Piece] = []
    used = 0  # letters up to here are put together: the end of one run does not begin another
    for piece in pieces:
        back = 2 if done and done[-1].kind == PAUSE else 1
        before = done[-back] if len(done) >= back else None
        pairs = before and before.kind == piece.kind == "letters"
        if before and pairs and before.start >= used and len(before.value) == len(piece.value) == 2:
            between = folded[before.end : piece.start]
            made = _pair(before, piece, between, vocabulary, block)
            if made:
                done[-back:], used = made, piece.end
                continue
        done.append(piece)
    return done


def _pair(
    first: Piece, second: Piece, between: str, vocabulary: Vocabulary, block: bool
) -> list[Piece]:
    """What two pairs of letters make together; [] when each stands for itself."""
    four = first.value + second.value
    hyphen = bool(_JOINED.fullmatch(between))
    one_stamp = mirrored(four) or four in vocabulary.lettering_errors
    if one_stamp and (hyphen or between.isspace()):
        return [piece_of(four, first.start, second.end)]
    if not hyphen:
        return []
    run = _between_corners(first.value, second.value, block)
    if not run and _half_mirrored(four):
        run = [four]
    return [piece_of(each, first.start, second.end) for each in run]


def _between_corners(first: str, last: str, block: bool) -> list[str]:
    """Every lettering from one to the other along a row or column, or in a block of stamps."""
    (top, left), (foot, right) = counts(lower_pair(first)), counts(lower_pair(last))
    straight = (top == foot) != (left == right)
    if top > foot or left > right or not (straight or (block and top < foot and left < right)):
        return []
    return [
        letters_at(row, column) for row in range(top, foot + 1) for column in range(left, right + 1)
    ]
