"""What becomes of a sale afterwards: found again, which ways are open, and the one chosen noted."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from counter.describe.description import short_line
from counter.desk.trade.trading import Trading
from counter.store.records.sale import Sale
from counter.trade.after_sale import (
    cancel_deposit,
    hand_over,
    keep_approval,
    name_buyer,
    note_balance,
)
from counter.trade.refunds import Allowing, note_allowance, note_refund, to_pay
from counter.trade.selling import Sold
from counter.values.dates import day_words
from counter.values.errors import InputError

#: What may become of a sale, in words.
WAYS = {
    "balance": "the balance is paid",
    "keep": "kept, all or some of it",
    "sent back": "all of it sent back",
    "refund": "came back: refund",
    "allowance": "kept, with money back",
    "hand over": "handed over",
    "cancel": "fell through: deposit paid back",
    "buyer": "the buyer is named",
}


#: As many sales as one looks through; more words find the older ones.
MOST = 300


@dataclass(frozen=True, slots=True)
class SaleFound:
    """A sale in a list: the record, its buyer's name, what is owed in pence, its first piece."""

    sale: Sale
    buyer: str
    owed: int
    words: str


@dataclass(frozen=True, slots=True)
class Settlement:
    """What became of a sale: `what` of WAYS, with what each of them needs.

    `pieces` are kept (keep), came back or have an allowance made on them (none: all that are left).
    `pence` is the payment of a balance (None: all that is owed), an allowance, or what is kept of a
    deposit (None: nothing). `payment` "" pays back the way it was paid. `buyer` is a name.
    """

    what: str
    day: str
    payment: str = ""
    pieces: Collection[str] = ()
    pence: int | None = None
    reason: str = ""
    buyer: str = ""


def settle_sale(trading: Trading, number: str, how: Settlement) -> Sold:
    """Note what became of a sale as entries of its own. Raises UserError; then nothing changed."""
    house = trading.settings
    if how.what == "balance":
        return note_balance(house, number, how.payment or "cash", how.day, how.pence)
    if how.what == "hand over":
        return hand_over(house, number, how.day)
    if how.what == "allowance":
        on = Allowing(how.day, how.pieces)
        return note_allowance(house, number, how.pence or 0, on, how.reason, how.payment)
    if how.what == "refund":
        return note_refund(house, number, how.pieces, how.day, how.reason, how.payment)
    if how.what == "cancel":
        return cancel_deposit(house, number, how.day, how.payment, how.pence or 0)
    if how.what == "buyer":
        return name_buyer(house, number, how.buyer)
    if how.what not in WAYS:
        raise InputError(f"Say what became of {number}: {', '.join(WAYS)}.")
    kept = how.pieces if how.what == "keep" else ()
    return keep_approval(house, number, kept, how.day, how.payment or "cash")


def ways_open(trading: Trading, sale: Sale) -> tuple[str, ...]:
    """Which of WAYS a sale can still go."""
    nameless = () if sale.buyer else ("buyer",)
    if sale.status == "deposit":
        if not to_pay(sale):
            return ("hand over", "cancel", *nameless)
        return ("balance", "cancel", *nameless, "hand over")
    if sale.status == "on approval":
        return ("keep", "sent back", *nameless)
    if sale.refund_of:
        return ("balance",) if sale.noted_owed else ()
    if sale.status != "complete" or not sale.went:
        return ()
    balance = ("balance",) if to_pay(sale, trading.ledger.sales.refunds(sale.id)) > 0 else ()
    left = pieces_left(trading, sale)
    refund = ("refund",) if left else ()
    return (*balance, *refund, *nameless, *(("allowance",) if left else ()))


def sale_with(trading: Trading, item: str, day: str) -> str:
    """The sale (or refund) in which a piece moved on a day, "" for none."""
    moved = (sale.id for sale in trading.ledger.sales.with_piece(item) if sale.date == day)
    return next(moved, "")


def pieces_left(trading: Trading, sale: Sale) -> tuple[str, ...]:
    """The pieces of a sale that did not come back."""
    gone = trading.ledger.sales.refunded(sale.id)
    return tuple(line.item for line in sale.lines if line.item not in gone)


def find_sales(trading: Trading, words: str = "") -> list[SaleFound]:
    """Sales that hold every word (number, day, buyer, state, pieces), newest first, at most MOST."""
    wanted = words.casefold().split()
    ledger = trading.ledger
    names = {each.id: each.name for each in ledger.people.records()}
    found = []
    for sale in ledger.sales.records():
        state = state_words(sale.status, sale.disposal, sale.refund_of)
        said = [sale.id, sale.date, day_words(sale.date), names.get(sale.buyer, ""), state]
        said += [f"{line.item} {line.words}" for line in sale.lines]
        text = " ".join(said).casefold()
        if all(word in text for word in wanted):
            found.append(sale)
    found.sort(key=lambda sale: (sale.date, _serial(sale.id)), reverse=True)
    return [_found(trading, sale) for sale in found[:MOST]]


def _found(trading: Trading, sale: Sale) -> SaleFound:
    buyer = trading.ledger.people.find(sale.buyer)
    owed = 0
    if sale.status in ("deposit", "complete") and not sale.refund_of:
        owed = to_pay(sale, trading.ledger.sales.refunds(sale.id))
    first = sale.lines[0] if sale.lines else None
    item = trading.workspace.item(first.item) if first and not first.words else None
    words = short_line(item, trading.names) if item else first.words if first else ""
    return SaleFound(sale, buyer.name if buyer else "", owed, words)


def look_up_sale(trading: Trading, number: str) -> SaleFound:
    """A sale as the list shows it. Raises UserError when there is none."""
    return _found(trading, trading.ledger.sales.of(number))


def _serial(number: str) -> int:
    tail = number.rpartition("-")[2].lstrip("S")
    return int(tail) if tail.isdecimal() else 0


def state_words(status: str, disposal: str, refund_of: str) -> str:
    """The state of a sale in one word or two."""
    if refund_of:
        return "refund"
    return status if status != "complete" else disposal
