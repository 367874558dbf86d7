"""Kept quotes: taken into the quote in hand again, and read out for the customer."""

from __future__ import annotations

from counter.describe.description import short_line
from counter.desk.trade.trading import Trading
from counter.store.records.sale import Quote
from counter.trade.quotes import order_from_quote, shared_foreign
from counter.values.currency import written
from counter.values.money import pounds
from counter.values.quote import QuoteLine, RunningQuote


def take_kept(trading: Trading, number: str, day: str = "") -> RunningQuote:
    """A kept quote as the quote in hand. Raises UserError when it was taken or its day is past."""
    order = order_from_quote(trading.ledger, number, day or trading.today)
    lines = tuple(
        QuoteLine(each.item, each.words or _words(trading, each.item), each.price_pence)
        for each in order.lines
    )
    running = RunningQuote(lines, kept=number)
    if not order.discount_pence:
        return running
    return running.for_lot(running.before - order.discount_pence)


def _words(trading: Trading, number: str) -> str:
    item = trading.workspace.item(number)
    return short_line(item, trading.names) if item else ""


def quote_head(quote: Quote) -> str:
    """A quote in one line."""
    until = f"until {quote.valid_until}" if quote.valid_until else ""
    return f"{quote.id}  {quote.date}  {pounds(quote.total_pence):>12}  {quote.status} {until}".rstrip()


def quote_text(trading: Trading, quote: Quote) -> str:
    """The quote for the customer's eyes: no cost, no margin."""
    shares = shared_foreign(quote)
    rows = []
    for place, line in enumerate(quote.lines):
        price = pounds(line.price_pence - line.discount_pence)
        if quote.foreign:
            currency = trading.settings.facts.currencies[quote.foreign.currency]
            price += f"  {written(shares[place], currency)}"
        words = line.words or _words(trading, line.item)
        rows.append(f"{line.item:<10}{price:>14}  {words}".rstrip())
    total = pounds(quote.total_pence)
    if quote.foreign:
        currency = trading.settings.facts.currencies[quote.foreign.currency]
        rate = f"at {quote.foreign.rate} to the pound, {quote.foreign.rate_date}"
        total += f"  {written(quote.foreign.amount_minor, currency)} {rate}"
    return "\n".join([quote_head(quote), *rows, f"{'Total':<10}{total:>14}"])
