"""Read one typed line: cut it into pieces from left to right, settle them by their context.

At each word the longest of three is taken: a pattern of figures, a phrase of the vocabulary, check
letters. What is left stands as unread. Nothing raises, and every character belongs to something.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from counter.judge.observation import KINDS, Observation, Reading, Unread
from counter.judge.reading import amounts, days, figures
from counter.judge.reading.context import settle
from counter.judge.reading.lettering import letters_from, whole_stamp
from counter.judge.reading.phrases import Match, Word, is_colour, longest
from counter.judge.reading.piece import DIGITS, FILLER, LETTERS, PAUSE, UNREAD, WHERE, Piece, Rule
from counter.reference.vocabulary import Vocabulary
from counter.values.typed import WORD, fold

_PAUSES = frozenset(",;:.()[]|/\"'-+&=*_")
_BEFORE_COLOUR = re.compile(r"(?:[0-9½]\s?[dsp]|[0-9]/-|£[15]|penny|pence|&|\band)\s*$")
_RULES: dict[str, list[Rule]] = defaultdict(list)
for _rule in (*days.RULES, *amounts.RULES, *figures.RULES):
    for _cue in _rule.cues:
        _RULES[_cue].append(_rule)


def read_line(text: str, vocabulary: Vocabulary) -> Reading:
    """What a typed line says. Pure: the same line and words always give the same reading."""
    folded = fold(text)
    pieces = settle(list(_cut(text, folded, vocabulary)), folded, vocabulary)
    seen = [piece for piece in pieces if piece.kind in KINDS]
    observations = tuple(
        Observation(each.kind, each.value, each.words, each.start, each.end, each.slip) for each in seen
    )
    passed = [(each.start, each.end) for each in pieces if each.kind in (FILLER, PAUSE)]
    fillers = tuple(sorted((*passed, *_between(pieces, folded))))
    unread = tuple(
        Unread(text[each.start : each.end], each.start, each.end)
        for each in pieces
        if each.kind == UNREAD
    )
    return Reading(text, observations, unread, fillers)


def _between(pieces: list[Piece], folded: str) -> Iterator[tuple[int, int]]:
    """What a pattern stepped over between its pieces: "franked (with) 2d", "no(.) 46"."""
    place = 0
    for piece in (*pieces, Piece(FILLER, "", "", len(folded), len(folded))):
        step = folded[place : piece.start]
        if step.strip():
            start = place + len(step) - len(step.lstrip())
            yield start, start + len(step.strip())
        place = max(place, piece.end)


def _cut(text: str, folded: str, vocabulary: Vocabulary) -> Iterator[Piece]:
    words = list(_words(folded, vocabulary))
    place, at, end = 0, 0, len(folded)
    while place < end:
        while at < len(words) and words[at].start < place:
            at += 1
        here = words[at] if at < len(words) and words[at].start == place else None
        if folded[place].isspace():
            place += 1
            continue
        pieces = _pieces(text, folded, place, words, at if here else None, vocabulary)
        yield from pieces
        place = pieces[-1].end


def _words(folded: str, vocabulary: Vocabulary) -> Iterator[Word]:
    """The words of the line; a face value and a colour run together are two: "1dred"."""
    for found in WORD.finditer(folded):
        start, end = found.span()
        run = amounts.RUN_TOGETHER.fullmatch(found[0])
        if run and is_colour(run["colour"], vocabulary):
            yield Word(run["value"], start, start + run.end("value"))
            start += run.start("colour")
        yield Word(folded[start:end].replace("'", ""), start, end)


def _pieces(
    text: str, folded: str, place: int, words: list[Word], at: int | None, vocabulary: Vocabulary
) -> list[Piece]:
    """The pieces that begin here: at least one, covering at least one character."""
    figure = _figure(folded, place, words[at].text if at is not None else "", vocabulary)
    if at is None:
        kind = PAUSE if folded[place] in _PAUSES else UNREAD
        return figure or [Piece(kind, "", "", place, place + 1)]
    if four := whole_stamp(folded, place, vocabulary):
        return [four]
    match = _but_for_a_day(longest(folded, words, at, vocabulary), folded, words, at, vocabulary)
    reach = words[match.last].end if match else 0
    if figure and figure[-1].end > reach:
        return figure
    if match and match.last > at and not match.slip:
        return _said(match, place, reach)
    if short := _shade(folded, words, at, vocabulary) or _colour(text, folded, words, at, vocabulary):
        return [short]
    lettered = letters_from(text, folded, words, at, vocabulary)
    if lettered and (not match or len(lettered[0]) > 1 or match.slip):
        return lettered[0]
    if match:
        return _said(match, place, reach)
    return figure or [_left(words[at], vocabulary)]


def _but_for_a_day(
    match: Match | None, folded: str, words: list[Word], at: int, vocabulary: Vocabulary
) -> Match | None:
    """A phrase gives up its last figure where that begins a date: "unpaid | 2 march 1840"."""
    if match is None or match.last == at or not words[match.last].text.isdigit():
        return match
    last = words[match.last]
    ahead = _figure(folded, last.start, last.text, vocabulary)
    if not ahead or ahead[0].kind not in ("date", days.SHORT_DATE):
        return match
    return longest(folded, words[: match.last], at, vocabulary) or match


def _figure(folded: str, place: int, word: str, vocabulary: Vocabulary) -> list[Piece] | None:
    """The longest pattern that makes sense here; of equals the one listed first."""
    first = folded[place]
    if word and first.isalpha():
        lead = word[: next((i for i, each in enumerate(word) if not each.isalpha()), len(word))]
        rules = _RULES.get(lead, []) + _RULES[LETTERS]
    else:
        rules = _RULES.get(DIGITS if first.isnumeric() else first, [])
    best: list[Piece] | None = None
    for each in rules:
        found = each.pattern.match(folded, place)
        if found and (best is None or found.end() > best[-1].end):
            best = each.make(found, vocabulary) or best
    return best


def _said(match: Match, start: int, end: int) -> list[Piece]:
    first, *others = match.means
    made = Piece(first.kind, first.value, first.said, start, end, match.slip)
    if others:
        other = others[0]
        made.other = Piece(other.kind, other.value, other.said, start, end, match.slip)
    also = [Piece(kind, value, words, start, end, match.slip) for kind, value, words in first.also]
    return [made, *also]


def _shade(folded: str, words: list[Word], at: int, vocabulary: Vocabulary) -> Piece | None:
    """A two-letter shade ("dk", "lt") counts when a colour follows; else it may be check letters."""
    value = vocabulary.short_shades.get(words[at].text)
    if not value or at + 1 >= len(words):
        return None
    ahead = longest(folded, words, at + 1, vocabulary)
    if not ahead or ahead.means[0].kind != "colour":
        return None
    return Piece("shade", value, value, words[at].start, words[at].end)


def _colour(text: str, folded: str, words: list[Word], at: int, vocabulary: Vocabulary) -> Piece | None:
    """A two-letter colour in small letters right behind a value ("2d bl"), or a second one ("& bl")."""
    here = words[at]
    value = vocabulary.short_colours.get(here.text)
    if not value or text[here.start : here.end].isupper():
        return None
    if not _BEFORE_COLOUR.search(folded, max(here.start - 12, 0), here.start):
        return None
    return Piece("colour", value, value, here.start, here.end)


def _left(word: Word, vocabulary: Vocabulary) -> Piece:
    kind = FILLER if word.text in vocabulary.fillers else UNREAD
    return Piece(kind, WHERE if word.text in vocabulary.where else "", "", word.start, word.end)
