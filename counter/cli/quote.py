"""`counter quote WK-1 WK-2=40 --discount 10%`: keep a quote; `counter quote --find green`: find it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import day_of, not_by_half
from counter.desk.trade.purchase_line import read_prices
from counter.desk.trade.quotes import quote_head, quote_text
from counter.desk.trade.sell import priced
from counter.desk.trade.trading import Trading
from counter.store.records.sale import Quote
from counter.trade.quotes import end_quote, find_quotes, note_quote
from counter.values.date_words import day_of_words
from counter.values.record import write_row


def arguments(parser: ArgumentParser) -> None:
    """Pieces to quote, or a quote to find, show or end."""
    parser.add_argument("pieces", nargs="*", metavar="NUMBER[=SUM]")
    parser.add_argument(
        "--discount", metavar="10%|SUM", default="", help="10%%, or a price for the lot"
    )
    parser.add_argument("--agreed", action="store_true", help="more than half off is meant")
    parser.add_argument("--customer", default="", help="name, or number of a person")
    parser.add_argument("--until", metavar="DATE", help="last day it holds")
    parser.add_argument("--in", dest="currency", default="", metavar="CODE", help="at your own rate")
    parser.add_argument("--date", metavar="DATE", help="today if left out")
    parser.add_argument("--find", nargs="?", const="", metavar="WORDS", help="open quotes")
    parser.add_argument("--show", metavar="QUOTE", help="one kept quote, by its number")
    parser.add_argument("--end", metavar="QUOTE", help="withdraw it")


def run(chosen: Namespace, call: Call) -> Reply:
    """A quote as kept, or {quotes: [...]} for --find."""
    trading = call.desk.trading
    ledger = trading.ledger
    if chosen.find is not None:
        found = find_quotes(ledger, chosen.find)
        lines = [quote_head(each) for each in found] or ["No open quote."]
        return Reply({"quotes": [write_row(each) for each in found]}, "\n".join(lines))
    if chosen.show or chosen.end:
        quote = end_quote(ledger, chosen.end) if chosen.end else ledger.quotes.of(chosen.show)
    else:
        quote = _note(chosen, trading)
    return Reply(write_row(quote), quote_text(trading, quote))


def _note(chosen: Namespace, trading: Trading) -> Quote:
    running = priced(trading, read_prices(chosen.pieces)).discounted(chosen.discount)
    not_by_half(running, agreed=chosen.agreed)
    day, until = day_of(chosen.date, trading), day_of_words(chosen.until) if chosen.until else ""
    return note_quote(trading.settings, running, day, chosen.customer, until, chosen.currency)
