"""What was typed, taken apart: words to look for, and bounds that lines must keep."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from counter.search.tokenizer import FILLERS, even, pieces

STATUSES = ("in stock", "on approval", "reserved", "sold", "returned", "withdrawn")
_SUM = r"£? ?(\d[\d,]*)(?:\.(\d\d))?(?![\w.,/])"
_MOST = re.compile(rf"(?:\b(?:under|below|up to|less than|max|maximum)|<=?) ?{_SUM}")
_LEAST = re.compile(rf"(?:\b(?:over|above|more than|min|minimum|from(?= ?£))|>=?) ?{_SUM}")
_BETWEEN = re.compile(rf"(?:between )?{_SUM} ?(?:-|to|and) ?{_SUM}")
_STATUS = re.compile(r"\b(in stock|on approval|approval|reserved|sold|withdrawn)\b")
_SPACED = re.compile(r"(?<![^\W_])[a-x](?: [a-x]){1,3}(?![^\W_])")
_NUMBER = re.compile(r"(?<![^\W_])[a-z]{0,4}[- ]?\d{1,9}(?:[-/][a-z0-9]{1,4})?(?![^\W_])")


#: Whether a key is a kept stock number, or (second argument) also the beginning of one.
NumberTest = Callable[[str, bool], bool]


@dataclass(frozen=True, slots=True)
class Term:
    """One thing looked for: the text typed and the tokens it stands for; `open` while it is typed."""

    text: str
    tokens: tuple[str, ...]
    open: bool = False


@dataclass(frozen=True, slots=True)
class Query:
    """A question taken apart. Prices in pence, both ends included; None is no bound."""

    asked: tuple[Term, ...]
    price_min: int | None = None
    price_max: int | None = None
    statuses: tuple[str, ...] = ()


def read_question(text: str, is_number: NumberTest) -> Query:
    """Take a typed line apart. `is_number` says whether a stock number (or its beginning) is kept.

    Never raises. A line that ends in a letter or figure is still being typed: its last word is open.
    """
    line = even(text)
    line, least, most = _bounds(line)
    statuses = tuple("on approval" if each == "approval" else each for each in _STATUS.findall(line))
    line = _STATUS.sub(_blank, line)
    asked: list[tuple[int, Term]] = []
    line = _numbers(line, is_number, asked)
    line = _letters_apart(line, asked)
    end = len(line)  # a word that ends here may not be finished
    for piece in pieces(line):
        word = line[piece.start : piece.end]
        if word not in FILLERS or piece.end == end:
            asked.append((piece.start, Term(word, piece.tokens, piece.end == end)))
    asked.sort(key=lambda each: each[0])
    return Query(tuple(each for _, each in asked), least, most, statuses)


def number_key(number: str) -> str:
    """A stock number as compared: small letters, no signs or leading noughts (A-0417 is a417)."""
    key = re.sub(r"[\W_]+", "-", number.lower()).strip("-")
    return re.sub(r"(?<=[^\W\d])-(?=\d)", "", re.sub(r"(?<!\d)0+(?=\d)", "", key))


def _bounds(line: str) -> tuple[str, int | None, int | None]:
    least: int | None = None
    most: int | None = None
    if "£" in line and (found := _BETWEEN.search(line)):
        least, most = _pence(found, 1), _pence(found, 3)
        line = _BETWEEN.sub(_blank, line, count=1)
    if found := _MOST.search(line):
        most, line = _pence(found, 1), _MOST.sub(_blank, line, count=1)
    if found := _LEAST.search(line):
        least, line = _pence(found, 1), _LEAST.sub(_blank, line, count=1)
    return line, least, most


def _pence(found: re.Match[str], group: int) -> int:
    return int(found[group].replace(",", "")[:12]) * 100 + int(found[group + 1] or "0")


def _blank(found: re.Match[str]) -> str:
    return " " * len(found[0])


def _numbers(line: str, is_number: NumberTest, asked: list[tuple[int, Term]]) -> str:
    """Take out what is a stock number, so that it is not read as anything else."""
    for found in _NUMBER.finditer(line):
        open_end = found.end() == len(line)
        key = number_key(found[0])
        if not key.isdecimal() and is_number(key, open_end):
            asked.append((found.start(), Term(found[0], (f"#{key}",), open_end)))
            line = line[: found.start()] + _blank(found) + line[found.end() :]
    return line


def _letters_apart(line: str, asked: list[tuple[int, Term]]) -> str:
    """Take out check letters typed with a space between: "k c" is the lettering KC."""
    for found in _SPACED.finditer(line):
        lettering = found[0].replace(" ", "")
        if len(lettering) in (2, 4):
            asked.append((found.start(), Term(found[0], (f"={lettering}",))))
            line = line[: found.start()] + _blank(found) + line[found.end() :]
    return line
