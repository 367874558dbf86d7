"""Selling from the quote in hand: how it is to go, read back before it is noted, then noted."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from counter.describe.description import short_line
from counter.desk.trade.trading import Trading
from counter.store.records.sale import Sale
from counter.trade.buying import Deal
from counter.trade.quotes import order_from_quote
from counter.trade.selling import Order, Sold, Wanted, note_exchange, note_sale
from counter.trade.stock_book_totals import registration_warning
from counter.values.currency import (
    Currency,
    cash,
    from_sterling,
    read_code,
    read_money,
    to_sterling,
    written,
)
from counter.values.errors import InputError
from counter.values.money import pounds, read_pence, share
from counter.values.quote import QuoteLine, RunningQuote


@dataclass(frozen=True, slots=True)
class SaleTerms:
    """How a sale is to go; sums in pence.

    `paid` are parts as (method, pence), `payment` the way the rest is paid ("": it stays owed).
    `exchange` is a purchase line for what is taken in; `currency` a code, turned at the own rate;
    `agreed` what was agreed in it for all, in its minor unit (0: the pounds are what was agreed).
    """

    day: str
    status: str = "complete"
    payment: str = ""
    paid: tuple[tuple[str, int], ...] = ()
    due_back: str = ""
    buyer: str = ""
    buyer_kind: str = ""
    postage_pence: int = 0
    currency: str = ""
    agreed: int = 0
    exchange: str = ""
    disposal: str = "sold"
    vat_shown: bool = False


@dataclass(frozen=True, slots=True)
class ReadSale:
    """A sale as it would be noted: the order, and what is taken in part exchange (None: nothing)."""

    order: Order
    taken: Deal | None = None

    @property
    def total(self) -> int:
        """What the buyer owes in all, in pence."""
        return order_total(self.order) + self.order.postage_pence

    @property
    def left(self) -> int:
        """What is not paid yet, in pence, after what is taken in."""
        taken = self.taken.total_pence if self.taken else 0
        if self.taken and self.taken.parts:
            taken = sum(pence for way, pence in self.taken.parts if way == "exchange")
        return self.total - taken - sum(pence for _, pence in self.order.payments)


def order_total(order: Order) -> int:
    """The prices less the discount, in pence; postage not counted."""
    return sum(each.price_pence for each in order.lines) - order.discount_pence


def priced(
    trading: Trading, pieces: Iterable[tuple[str, int | None]], *, free: bool = False
) -> RunningQuote:
    """Stock numbers with their prices (None: the asking price) as a quote in hand.

    `free` lets a piece without an asking price go for nothing (lost, kept). Raises UserError.
    """
    lines: list[QuoteLine] = []
    for number, price in pieces:
        item = trading.item(number)
        number = item.number
        if any(each.number == number for each in lines):
            raise InputError(f"{number} is named twice; name each piece once.")
        asked = item.asking if price is None else price
        if asked is None and not free:
            raise InputError(f"{number} has no asking price; write {number}=72.50.")
        lines.append(QuoteLine(number, short_line(item, trading.names), asked or 0))
    return RunningQuote(tuple(lines))


def read_sale(trading: Trading, running: RunningQuote, terms: SaleTerms) -> ReadSale:
    """The sale of the quote in hand on these terms, nothing noted. Raises UserError in one sentence."""
    order = _order(trading, running, terms.day)
    if terms.currency and read_code(terms.currency, trading.settings.facts.currencies).code != "GBP":
        day = trading.settings.on(terms.day)
        currency, rate, _ = day.rate(terms.currency)
        amount = terms.agreed
        if amount:
            order = _at_agreed(order, to_sterling(amount, currency, rate) - terms.postage_pence)
        else:
            amount = from_sterling(order_total(order) + terms.postage_pence, currency, rate)
        order = replace(order, foreign=day.foreign(currency.code, amount))
    order = replace(
        order,
        payments=terms.paid,
        postage_pence=terms.postage_pence,
        buyer=terms.buyer or order.buyer,
        buyer_kind=terms.buyer_kind,
        status=terms.status,
        due_back=terms.due_back,
        disposal=terms.disposal,
        vat_shown=terms.vat_shown,
    )
    taken = trading.read_deal(terms.exchange, terms.day).deal if terms.exchange.strip() else None
    read = ReadSale(order, taken)
    if read.left < 0 and taken and not terms.paid and not taken.parts:
        return replace(read, taken=_paid_out(taken, read, terms.payment))
    if read.left < 0 and terms.disposal != "returned to seller":
        over = pounds(-read.left)
        raise InputError(f"What is paid and taken in comes to {over} more than what is sold.")
    if not terms.payment or not read.left:
        return read
    return replace(read, order=replace(order, payments=(*terms.paid, (terms.payment, read.left))))


def _at_agreed(order: Order, pence: int) -> Order:
    """The pieces at what was agreed for all in another currency, shared as they were asked."""
    if pence < 0 or order.discount_pence:
        raise InputError("A sum agreed in another currency is for all of it: leave the discount out.")
    asked = [each.price_pence for each in order.lines]
    parts = share(pence, asked if any(asked) else [1] * len(asked))
    lines = (replace(each, price_pence=part) for each, part in zip(order.lines, parts, strict=True))
    return replace(order, lines=tuple(lines))


def read_agreed(text: str, known: Mapping[str, Currency]) -> tuple[str, int]:
    """A currency as typed, or a sum agreed in it ("€200", "200 EUR"): code and minor units (0: none)."""
    if not any(each.isdigit() for each in text):
        return text, 0
    amount, currency = read_money(text, known, known["GBP"])
    if currency.code == "GBP" or not amount:
        raise InputError(f"{text} is not a sum in another currency; write it as €200 or 200 EUR.")
    return currency.code, amount


def _paid_out(taken: Deal, read: ReadSale, payment: str) -> Deal:
    """Goods worth more than what is sold: the rest is paid to the customer. Raises InputError."""
    if not payment:
        over = pounds(-read.left)
        raise InputError(
            f"What is taken in is worth {over} more than what is sold; say how that is paid out."
        )
    return replace(taken, parts=(("exchange", read.total), (payment, -read.left)))


def _order(trading: Trading, running: RunningQuote, day: str) -> Order:
    lines = tuple(Wanted(each.number, each.price, each.words) for each in running.lines)
    discount = running.before - running.total
    if not running.kept:
        return Order(day, lines, discount_pence=discount)
    kept = order_from_quote(trading.ledger, running.kept, day)
    same = order_total(kept) == running.total
    foreign = kept.foreign if same else None  # it was turned once, for that sum
    return replace(kept, lines=lines, discount_pence=discount, foreign=foreign)


def sell(trading: Trading, read: ReadSale) -> tuple[Sold, str]:
    """Note it durably: the sale, and the purchase's number of a part exchange or "". Raises UserError."""
    if read.taken is None:
        sold, bought = note_sale(trading.settings, read.order), ""
    else:
        sold, bought = note_exchange(trading.settings, read.order, read.taken)
    warned = registration_warning(trading.book, read.order.day)
    return replace(sold, told=(*sold.told, *filter(None, [warned]))), bought


def read_parts(text: str, method: str) -> tuple[tuple[str, int], ...]:
    """Payments as typed: "20" by the method chosen, or "cash 20, card 52.50". Raises InputError."""
    parts = []
    for each in filter(None, (part.strip() for part in text.split(","))):
        way, _, pence = each.rpartition(" ")
        if not (way or method):
            raise InputError(f"Say how {each} is paid, as: cash {each}.")
        parts.append((way.strip().lower() or method, read_pence(pence, "a payment")))
    return tuple(parts)


def sale_words(sold: Sold, known: Mapping[str, Currency], exchange: str = "") -> list[str]:
    """A noted sale in sentences a customer may read; `Sold.told` is for the dealer alone."""
    sale = sold.sale
    what = "Refund" if sale.refund_of else "Noted as"
    state = "allowance" if sale.allowance else sale.status
    paid = abs(sale.received)
    owed = sale.total_pence - paid if state == "deposit" else abs(sale.noted_owed)
    said = [
        f"{what} {sale.id} ({state}): {pounds(sale.total_pence)}",
        *(
            [f"{pounds(paid)} of {pounds(sale.total_pence)} paid; {pounds(owed)} is owed"]
            if owed
            else []
        ),
        *foreign_words(sale, known),
    ]
    return said + ([f"Taken in part exchange: {exchange}"] if exchange else [])


def foreign_words(sale: Sale | Order, known: Mapping[str, Currency]) -> list[str]:
    """The foreign sum, and what is handed over where its cash has larger steps."""
    if sale.foreign is None:
        return []
    currency = known[sale.foreign.currency]
    amount = sale.foreign.amount_minor
    handed = cash(amount, currency.cash_step)
    said = f"In {currency.code}: {written(amount, currency)} at {sale.foreign.rate} to the pound"
    return [said + (f"; in cash {written(handed, currency)}" if handed != amount else "")]


def read_back(read: ReadSale) -> str:
    """What will be noted, in one sentence that the customer may read."""
    order = read.order
    who = f" to {order.buyer}" if order.buyer else ""
    paid = ", ".join(f"{method} {pounds(pence)}" for method, pence in order.payments if pence)
    taken = f" Taken in: {read.taken.words}, {pounds(read.taken.total_pence)}." if read.taken else ""
    if order.status == "on approval":
        return f"On approval{who} until {order.due_back}: no sale until something is kept."
    if order.status == "deposit":
        return f"Held{who} on a deposit of {paid or 'nothing'}; {pounds(read.left)} to follow.{taken}"
    left = f"; {pounds(read.left)} stays owed" if read.left else ""
    return f"Sold{who}; paid: {paid or 'nothing'}{left}.{taken}"
