"""The day in one look: the takings, the box, what is still to complete, cash near the limit."""

from __future__ import annotations

from dataclasses import dataclass

from counter.desk.trade.open_purchases import OpenPurchase, open_purchases
from counter.desk.trade.trading import Trading
from counter.store.records.shop import CASH_KINDS, Cash
from counter.trade.cash_limit import cash_near
from counter.trade.day_totals import Day, look_at_day, note_cash
from counter.trade.stock_book import Book
from counter.values.errors import InputError
from counter.values.money import pounds


@dataclass(frozen=True, slots=True)
class DayRead:
    """A day, the purchases still to complete, and a sentence for each person near the cash limit."""

    day: Day
    owing: tuple[OpenPurchase, ...]
    cash: tuple[str, ...]


def read_day_close(trading: Trading, day: str) -> DayRead:
    """Everything the day's screen shows; sums in pence."""
    return DayRead(
        look_at_day(trading.book, day), tuple(open_purchases(trading)), cash_words(trading, day)
    )


def cash_words(trading: Trading, day: str) -> tuple[str, ...]:
    """Running cash of twelve months per person, where it comes near what the house warns from."""
    terms = trading.settings.on(day)
    limit = terms.limits.get("high-value-dealer")
    most = f"; the law's limit is {limit.words}" if limit else ""
    said = []
    for near in cash_near(trading.ledger, terms):
        known = trading.ledger.people.find(near.person)
        sums = (("paid", near.cash.paid), ("had", near.cash.received))
        told = " and ".join(f"{way} {pounds(pence)}" for way, pence in sums if pence)
        who = known.name if known and known.name else near.person
        said.append(f"{who}: {told} in cash in twelve months{most}")
    return tuple(said)


#: What can be noted of the box; closing the day is a verb of its own.
KINDS = tuple(each for each in CASH_KINDS if each not in ("day closed", "difference"))
#: What goes out of the box is noted as negative.
_OUT = ("expense", "banked", "drawn")


def note_box(book: Book, kind: str, pence: int, day: str, words: str = "") -> Cash:
    """Note cash put in or taken out, in pence as a plain sum. Raises InputError for another kind."""
    if kind not in KINDS:
        raise InputError(f"{kind} is not a kind of cash; use {', '.join(KINDS)}.")
    return note_cash(book, kind, -pence if kind in _OUT else pence, day, words)
