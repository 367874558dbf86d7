"""What the index keeps of an item: its line, and every token it can be found by."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from counter.describe.description import short_line
from counter.describe.names import Names
from counter.search.query import number_key
from counter.search.tokenizer import pieces
from counter.values.item import Item


class StockDocument(NamedTuple):
    """One line of stock made ready for the index; `price` in pence, None when not priced.

    The first tokens stand in the line, from `places[2n]` to `places[2n + 1]`; the rest are known only
    from the record (the issue's watermark, where the piece is kept).
    """

    number: str
    key: str
    line: str
    tokens: list[str]
    places: list[int]
    status: str
    price: int | None


def prepare(item: Item, names: Names) -> StockDocument:
    """The line of an item with its tokens. What an issue is otherwise called is not repeated in each:
    a line has the token of its issue (`issue_token`).
    """
    line = short_line(item, names)
    tokens: list[str] = []
    places: list[int] = []
    start = 0
    for part in line.split(", "):
        found, spots = _part(part)
        tokens += found
        places += [start + spot for spot in spots]
        start += len(part) + 2
    corners = _corners(item.letters)
    for at in range(len(tokens)):
        for lettering in corners.get(tokens[at], ()):
            tokens.append(lettering)
            places += places[2 * at : 2 * at + 2]
    tokens += _hidden(item, corners).keys() - set(tokens)
    return StockDocument(
        item.number, number_key(item.number), line, tokens, places, item.status, item.asking
    )


def issue_token(issue: str) -> str:
    """The token that every line of an issue has."""
    return f"issue={issue}"


@lru_cache(maxsize=50_000)
def _part(part: str) -> tuple[tuple[str, ...], tuple[int, ...]]:
    """Tokens and places of a part of a line; parts such as "4 margins" come in line after line.

    A cancel's colour is kept as such only, so that "1d black" does not mean a black cancel.
    """
    tokens: list[str] = []
    places: list[int] = []
    for piece in pieces(part):
        shown = piece.tokens[-1:] if piece.tokens[-1].startswith("k=") else piece.tokens
        tokens += shown
        places += (piece.start, piece.end) * len(shown)
    return tuple(tokens), tuple(places)


def _corners(letters: tuple[str, ...]) -> dict[str, list[str]]:
    """For what stands in the line (kc; ck and kc) the letterings it is part of (=kc; =ckkc)."""
    corners: dict[str, list[str]] = {}
    for lettering in letters:
        low = lettering.lower()
        if len(low) == 4:
            corners.setdefault(low[:2], []).append(f"={low}")
            corners.setdefault(low[2:], []).extend((f"={low}", f"={low[2:]}"))
        else:
            corners.setdefault(low, []).append(f"={low}")
    return corners


def _hidden(item: Item, corners: dict[str, list[str]]) -> dict[str, None]:
    """Tokens that the line does not show: letters inside a multiple, the issue, where it is kept."""
    found = dict.fromkeys(token for each in corners.values() for token in each)
    found[issue_token(item.issue)] = None
    for words in (item.kept, item.reference, item.remarks):
        if words:
            found |= document_words(words)
    if item.cover and item.cover.marks:
        found |= document_words(item.cover.marks)
    if item.certificate:
        found |= document_words(item.certificate.body)
    return found


@lru_cache(maxsize=20_000)
def document_words(text: str) -> dict[str, None]:
    """The distinct tokens of a text, in order."""
    return dict.fromkeys(token for piece in pieces(text) for token in piece.tokens)
