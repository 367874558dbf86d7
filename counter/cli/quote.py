"""`counter quote WK-1 WK-2=40 --discount 10%`: keep a quote; `counter quote --find green`: find it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import day_of, open_dealing
from counter.desk.deal_line import read_prices
from counter.desk.dealing import Dealing
from counter.ledger.describe import short_line
from counter.ledger.quotes import end_quote, find_quotes, note_quote, read_quote, shared_foreign
from counter.ledger.records.sale import QUOTE, Quote
from counter.values.currency import written
from counter.values.days import read_day
from counter.values.money import pounds
from counter.values.quote import QuoteLine, RunningQuote
from counter.values.trouble import BadWords


def arguments(parser: ArgumentParser) -> None:
    """Pieces to quote, or a quote to find, show or end."""
    parser.add_argument("pieces", nargs="*", metavar="NUMBER[=SUM]")
    parser.add_argument(
        "--discount", metavar="10%|SUM", default="", help="10%%, or a price for the lot"
    )
    parser.add_argument("--customer", default="", help="name, or number of a person")
    parser.add_argument("--until", metavar="DATE", help="last day it holds")
    parser.add_argument("--in", dest="currency", default="", metavar="CODE", help="at your own rate")
    parser.add_argument("--date", metavar="DATE")
    parser.add_argument("--find", nargs="?", const="", metavar="WORDS", help="open quotes")
    parser.add_argument("--show", metavar="QUOTE")
    parser.add_argument("--end", metavar="QUOTE", help="withdraw it")


def run(chosen: Namespace, call: Call) -> Reply:
    """A quote as kept, or {quotes: [...]} for --find."""
    with open_dealing(call) as dealing:
        ledger = dealing.desk.ledger
        if chosen.find is not None:
            found = find_quotes(ledger, chosen.find)
            lines = [_head(each) for each in found] or ["No open quote."]
            return Reply({"quotes": [QUOTE.write(each) for each in found]}, "\n".join(lines))
        if chosen.show or chosen.end:
            quote = end_quote(ledger, chosen.end) if chosen.end else read_quote(ledger, chosen.show)
        else:
            quote = _note(chosen, dealing)
        return Reply(QUOTE.write(quote), _text(quote, dealing))


def _note(chosen: Namespace, dealing: Dealing) -> Quote:
    lines = []
    for number, price in read_prices(chosen.pieces):
        item = dealing.item(number)
        asked = item.asking if price is None else price
        if asked is None:
            raise BadWords(f"{number} has no asking price; write {number}=72.50.")
        lines.append(QuoteLine(number, short_line(item, dealing.desk.names), asked))
    running = RunningQuote(tuple(lines)).discounted(chosen.discount)
    day, until = day_of(chosen.date, dealing), read_day(chosen.until) if chosen.until else ""
    return note_quote(dealing.house, running, day, chosen.customer, until, chosen.currency)


def _head(quote: Quote) -> str:
    until = f"until {quote.valid_until}" if quote.valid_until else ""
    return f"{quote.id}  {quote.date}  {pounds(quote.total_pence):>12}  {quote.status} {until}".rstrip()


def _text(quote: Quote, dealing: Dealing) -> str:
    """The quote for the customer's eyes: no cost, no margin."""
    shares = shared_foreign(quote)
    rows = []
    for place, line in enumerate(quote.lines):
        price = pounds(line.price_pence - line.discount_pence)
        if quote.foreign:
            currency = dealing.house.facts.currencies[quote.foreign.currency]
            price += f"  {written(shares[place], currency)}"
        rows.append(f"{line.item:<10}{price:>14}  {line.words}".rstrip())
    total = pounds(quote.total_pence)
    if quote.foreign:
        currency = dealing.house.facts.currencies[quote.foreign.currency]
        rate = f"at {quote.foreign.rate} to the pound, {quote.foreign.rate_date}"
        total += f"  {written(quote.foreign.amount_minor, currency)} {rate}"
    return "\n".join([_head(quote), *rows, f"{'Total':<10}{total:>14}"])
