"""Quotes kept and found again: prices offered until a day, in sterling or at the dealer's own rate."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.money import Foreign
from counter.store.records.sale import Quote, QuotedPiece
from counter.trade.people import person_for
from counter.trade.selling import Order, Wanted, sellable
from counter.trade.settings import Settings
from counter.trade.terms import Terms
from counter.values.currency import from_sterling
from counter.values.errors import UserError
from counter.values.money import share
from counter.values.quote import RunningQuote


def note_quote(
    settings: Settings,
    running: RunningQuote,
    day: str,
    customer: str = "",
    until: str = "",
    currency: str = "",
) -> Quote:
    """Keep a quote in hand, its discount shared to the penny, valid until a day. Raises UserError.

    In another currency the sum is turned once, at the dealer's own rate of the day.
    """
    ledger, terms = settings.ledger, settings.on(day)
    if not running.lines:
        raise UserError("There is nothing in the quote yet.")
    for line in running.lines:
        sellable(ledger, line.number, day)
    who, changes = person_for(ledger, customer, day)
    last = until or (date.fromisoformat(day) + timedelta(days=terms.business.quote_days)).isoformat()
    if last < day:
        raise UserError(f"The quote would end on {last}, before it is made on {day}.")
    quote = Quote(
        id=ledger.next_number("quotes"),
        date=day,
        lines=_lines(running),
        discount_pence=running.before - running.total,
        total_pence=running.total,
        foreign=_foreign(terms, running.total, currency),
        valid_until=last,
        customer=who.id if who else "",
    )
    ledger.note("quote kept", [*changes, put(quote)])
    return quote


def _lines(running: RunningQuote) -> tuple[QuotedPiece, ...]:
    return tuple(
        QuotedPiece(line.number, line.price, line.price - price, line.words)
        for line, price in zip(running.lines, running.prices, strict=True)
    )


def _foreign(terms: Terms, pence: int, code: str) -> Foreign | None:
    if code.strip().upper() in ("", "GBP", "£"):
        return None
    currency, rate, _ = terms.rate(code)
    return terms.foreign(code, from_sterling(pence, currency, rate))


def find_quotes(ledger: Ledger, words: str = "", *, only_open: bool = True) -> list[Quote]:
    """Quotes by number, customer's name, stock number or words, the newest first."""
    wanted = words.casefold().split()
    found = []
    for quote in ledger.quotes.records():
        who = ledger.people.find(quote.customer)
        said = [quote.id, quote.date, who.name if who else "", quote.words]
        said += [f"{line.item} {line.words}" for line in quote.lines]
        text = " ".join(said).casefold()
        if (quote.status == "open" or not only_open) and all(word in text for word in wanted):
            found.append(quote)
    return sorted(found, key=lambda each: (each.date, each.id), reverse=True)


def order_from_quote(ledger: Ledger, number: str, day: str) -> Order:
    """The sale a quote turns into. Raises UserError when it was taken or its day is past."""
    quote = ledger.quotes.of(number)
    if quote.status != "open":
        raise UserError(f"{number} is {quote.status} already.")
    if quote.valid_until and day > quote.valid_until:
        raise UserError(f"{number} held until {quote.valid_until}; quote again.")
    lines = tuple(Wanted(each.item, each.price_pence, each.words) for each in quote.lines)
    return Order(
        day=day,
        lines=lines,
        discount_pence=quote.discount_pence,
        buyer=quote.customer,
        foreign=quote.foreign,
        quote=number,
    )


def end_quote(ledger: Ledger, number: str, status: str = "withdrawn") -> Quote:
    """Close an open quote as lapsed or withdrawn."""
    quote = ledger.quotes.of(number)
    if quote.status != "open":
        raise UserError(f"{number} is {quote.status} already.")
    quote = replace(quote, status=status)
    ledger.note(f"quote {status}", [put(quote)])
    return quote


def shared_foreign(quote: Quote) -> Sequence[int]:
    """Each line's part of the foreign sum, in minor units, adding up to it exactly."""
    if quote.foreign is None:
        return ()
    return share(
        quote.foreign.amount_minor, [line.price_pence - line.discount_pence for line in quote.lines]
    )
