"""Kept quotes: taken into the quote in hand again, and read out for the customer."""

from __future__ import annotations

from counter.desk.dealing import Dealing
from counter.ledger.describe import short_line
from counter.ledger.quotes import order_from_quote, shared_foreign
from counter.ledger.records.sale import Quote
from counter.values.currency import written
from counter.values.money import pounds
from counter.values.quote import QuoteLine, RunningQuote


def take_kept(dealing: Dealing, number: str, day: str = "") -> RunningQuote:
    """A kept quote as the quote in hand. Raises Trouble when it was taken or its day is past."""
    order = order_from_quote(dealing.desk.ledger, number, day or dealing.today)
    lines = tuple(
        QuoteLine(each.item, each.words or _words(dealing, each.item), each.price_pence)
        for each in order.lines
    )
    running = RunningQuote(lines, kept=number)
    if not order.discount_pence:
        return running
    return running.for_lot(running.before - order.discount_pence)


def _words(dealing: Dealing, number: str) -> str:
    item = dealing.desk.item(number)
    return short_line(item, dealing.desk.names) if item else ""


def quote_head(quote: Quote) -> str:
    """A quote in one line."""
    until = f"until {quote.valid_until}" if quote.valid_until else ""
    return f"{quote.id}  {quote.date}  {pounds(quote.total_pence):>12}  {quote.status} {until}".rstrip()


def quote_text(dealing: Dealing, quote: Quote) -> str:
    """The quote for the customer's eyes: no cost, no margin."""
    shares = shared_foreign(quote)
    rows = []
    for place, line in enumerate(quote.lines):
        price = pounds(line.price_pence - line.discount_pence)
        if quote.foreign:
            currency = dealing.house.facts.currencies[quote.foreign.currency]
            price += f"  {written(shares[place], currency)}"
        words = line.words or _words(dealing, line.item)
        rows.append(f"{line.item:<10}{price:>14}  {words}".rstrip())
    total = pounds(quote.total_pence)
    if quote.foreign:
        currency = dealing.house.facts.currencies[quote.foreign.currency]
        rate = f"at {quote.foreign.rate} to the pound, {quote.foreign.rate_date}"
        total += f"  {written(quote.foreign.amount_minor, currency)} {rate}"
    return "\n".join([quote_head(quote), *rows, f"{'Total':<10}{total:>14}"])
