"""The cash box: what goes in and out of it beside purchases and sales."""

from __future__ import annotations

from counter.ledger.book import Book
from counter.ledger.day import note_cash
from counter.ledger.records.shop import CASH_KINDS, Cash
from counter.values.trouble import BadWords

#: What can be noted of the box; closing the day is a verb of its own.
KINDS = tuple(each for each in CASH_KINDS if each not in ("day closed", "difference"))
#: What goes out of the box is noted as negative.
_OUT = ("expense", "banked", "drawn")


def note_box(book: Book, kind: str, pence: int, day: str, words: str = "") -> Cash:
    """Note cash put in or taken out, in pence as a plain sum. Raises BadWords for another kind."""
    if kind not in KINDS:
        raise BadWords(f"{kind} is not a kind of cash; use {', '.join(KINDS)}.")
    return note_cash(book, kind, -pence if kind in _OUT else pence, day, words)
