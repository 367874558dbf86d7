"""The cash box: what goes in and out of it beside purchases and sales."""

from __future__ import annotations

from counter.store.records.shop import CASH_KINDS, Cash
from counter.trade.day_totals import note_cash
from counter.trade.stock_book import Book
from counter.values.errors import InputError

#: What can be noted of the box; closing the day is a verb of its own.
KINDS = tuple(each for each in CASH_KINDS if each not in ("day closed", "difference"))
#: What goes out of the box is noted as negative.
_OUT = ("expense", "banked", "drawn")


def note_box(book: Book, kind: str, pence: int, day: str, words: str = "") -> Cash:
    """Note cash put in or taken out, in pence as a plain sum. Raises InputError for another kind."""
    if kind not in KINDS:
        raise InputError(f"{kind} is not a kind of cash; use {', '.join(KINDS)}.")
    return note_cash(book, kind, -pence if kind in _OUT else pence, day, words)
