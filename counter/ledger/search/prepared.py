"""What the index keeps of an item: its line, and every token it can be found by."""

from __future__ import annotations

from typing import NamedTuple

from counter.ledger.describe import short_line
from counter.ledger.names import Names, name_of
from counter.ledger.search.question import number_key
from counter.ledger.search.words import pieces
from counter.values.item import Item


class Prepared(NamedTuple):
    """One line of stock made ready for the index; `price` in pence, None when not priced."""

    number: str
    key: str
    line: str
    tokens: tuple[str, ...]
    status: str
    price: int | None


def prepare(item: Item, names: Names) -> Prepared:
    """The line of an item and its tokens: what the line shows, then what only the record knows."""
    line = short_line(item, names)
    tokens = dict.fromkeys(token for piece in pieces(line) for token in _kept(piece.tokens))
    for lettering in item.letters:
        tokens[f"={lettering.lower()}"] = None
        if len(lettering) == 4:  # the lower pair is what is usually typed
            tokens[f"={lettering[2:].lower()}"] = None
    name = name_of(item.issue, names)
    for hidden in (*name.also, item.kept, item.reference, item.remarks, _marks(item)):
        if hidden:
            tokens |= dict.fromkeys(token for piece in pieces(hidden) for token in piece.tokens)
    return Prepared(item.number, number_key(item.number), line, tuple(tokens), item.status, item.asking)


def _kept(tokens: tuple[str, ...]) -> tuple[str, ...]:
    """A cancel's colour is kept as such only, so that "1d black" does not mean a black cancel."""
    return tokens[-1:] if tokens[-1].startswith("k=") else tokens


def _marks(item: Item) -> str:
    paper = item.certificate
    return f"{item.cover.marks if item.cover else ''} {paper.body if paper else ''}".strip()
