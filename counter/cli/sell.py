"""`counter sell WK-1=72.50 --paid cash=72.50 --buyer "Mr Green"`: a sale in one entry."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Mapping
from dataclasses import replace

from counter.cli.call import Call, Reply
from counter.cli.deals import day_of, open_dealing, payments
from counter.desk.deal_line import read_prices
from counter.desk.dealing import Dealing
from counter.ledger.describe import short_line
from counter.ledger.quotes import order_from_quote
from counter.ledger.records.sale import DISPOSALS, SALE, Sale
from counter.ledger.selling import Order, Sold, Wanted, note_exchange, note_sale
from counter.values.currency import Currency, cash, from_sterling, written
from counter.values.money import pounds, read_pence
from counter.values.quote import QuoteLine, RunningQuote
from counter.values.trouble import BadWords


def arguments(parser: ArgumentParser) -> None:
    """Stock numbers with their prices (the asking price if none), and how it is paid."""
    parser.add_argument("pieces", nargs="*", metavar="NUMBER[=SUM]")
    parser.add_argument("--quote", metavar="NUMBER", help="sell what a kept quote offers")
    parser.add_argument(
        "--discount", metavar="10%|SUM", default="", help="10%%, or a price for the lot"
    )
    parser.add_argument("--paid", action="append", metavar="HOW=SUM", help="cash=20; may be repeated")
    parser.add_argument("--payment", metavar="HOW", help="the whole sum by one way")
    parser.add_argument("--postage", metavar="SUM", default="0", help="packing and postage charged")
    parser.add_argument("--in", dest="currency", default="", metavar="CODE", help="at your own rate")
    parser.add_argument("--buyer", default="", help="name, or number of a person")
    parser.add_argument("--business", action="store_true", help="the buyer is in business")
    parser.add_argument("--date", metavar="DATE")
    parser.add_argument("--deposit", action="store_true", help="hold it: what is paid is a deposit")
    parser.add_argument("--approval", metavar="DATE", help="on approval, due back by that day")
    parser.add_argument("--disposal", choices=DISPOSALS, default="sold")
    parser.add_argument("--vat-shown", action="store_true", help="ordinary VAT on the whole invoice")
    parser.add_argument("--exchange", metavar="LINE", help='taken in: "1d red pl 9 £20"')


def run(chosen: Namespace, call: Call) -> Reply:
    """{sale, status, total_pence, lines, vat_pence, exchange_purchase, told}."""
    with open_dealing(call) as dealing:
        order = _order(chosen, dealing)
        exchange = ""
        if chosen.exchange:
            taken = dealing.read_deal(chosen.exchange, order.day).deal
            order = _paid_by_one(chosen, order, less=taken.total_pence)
            sold, exchange = note_exchange(dealing.house, order, taken)
        else:
            sold = note_sale(dealing.house, _paid_by_one(chosen, order))
        known = dealing.house.facts.currencies
    return reply_of(sold, known, exchange)


def _order(chosen: Namespace, dealing: Dealing) -> Order:
    day = day_of(chosen.date, dealing)
    if chosen.quote:
        if chosen.pieces or chosen.discount:
            raise BadWords("A quote has its own pieces and prices; leave them out.")
        order = order_from_quote(dealing.desk.ledger, chosen.quote, day)
    else:
        order = _from_pieces(chosen, dealing, day)
    if chosen.currency:
        currency, rate, _ = dealing.house.exchange(chosen.currency, day)
        postage = read_pence(chosen.postage, "the postage")
        amount = from_sterling(_total(order) + postage, currency, rate)
        order = replace(order, foreign=dealing.house.foreign(currency.code, amount, day))
    status = "deposit" if chosen.deposit else "on approval" if chosen.approval else "complete"
    return replace(
        order,
        payments=payments(chosen.paid),
        postage_pence=read_pence(chosen.postage, "the postage"),
        buyer=chosen.buyer or order.buyer,
        buyer_kind="business" if chosen.business else "",
        status=status,
        due_back=chosen.approval or "",
        disposal=chosen.disposal,
        vat_shown=chosen.vat_shown,
    )


def _from_pieces(chosen: Namespace, dealing: Dealing, day: str) -> Order:
    lines = []
    for number, price in read_prices(chosen.pieces):
        item = dealing.item(number)
        asked = price if price is not None else item.asking
        if asked is None and chosen.disposal != "sold":
            asked = 0
        if asked is None:
            raise BadWords(f"{number} has no asking price; write {number}=72.50.")
        lines.append(QuoteLine(number, short_line(item, dealing.desk.names), asked))
    running = RunningQuote(tuple(lines)).discounted(chosen.discount)
    wanted = tuple(Wanted(each.number, each.price, each.words) for each in lines)
    return Order(day, wanted, discount_pence=running.before - running.total)


def _paid_by_one(chosen: Namespace, order: Order, less: int = 0) -> Order:
    if not chosen.payment:
        return order
    if order.payments:
        raise BadWords("Say --payment or --paid, not both.")
    rest = _total(order) + order.postage_pence - less
    if rest < 0:
        raise BadWords(f"What is taken in is worth {pounds(-rest)} more than what is sold.")
    return replace(order, payments=((chosen.payment, rest),))


def _total(order: Order) -> int:
    return sum(each.price_pence for each in order.lines) - order.discount_pence


def _in_foreign(sale: Sale, known: Mapping[str, Currency]) -> list[str]:
    """The foreign sum, and what is handed over where its cash has larger steps."""
    if sale.foreign is None:
        return []
    currency = known[sale.foreign.currency]
    amount = sale.foreign.amount_minor
    handed = cash(amount, currency.cash_step)
    said = f"In {currency.code}: {written(amount, currency)} at {sale.foreign.rate} to the pound"
    return [said + (f"; in cash {written(handed, currency)}" if handed != amount else "")]


def reply_of(sold: Sold, known: Mapping[str, Currency], exchange: str = "") -> Reply:
    """A noted sale as a reply; the dealer's own figures, not for the customer."""
    sale = sold.sale
    vat = [each.vat_pence for each in sale.lines if each.vat_pence is not None]
    data = SALE.write(sale) | {"sale": sale.id, "status": sale.status, "vat_pence": sum(vat)}
    data |= {"exchange_purchase": exchange or sale.exchange_purchase, "told": list(sold.told)}
    lines = [
        f"{each.item:<10}{pounds(each.price_pence - each.discount_pence):>12}  {each.words}".rstrip()
        for each in sale.lines
    ]
    what = "Refund" if sale.refund_of else "Noted as"
    said = f"{what} {sale.id} ({sale.status}): {pounds(sale.total_pence)}"
    taken = [f"Taken in part exchange: {exchange}"] if exchange else []
    return Reply(data, "\n".join([*lines, said, *_in_foreign(sale, known), *taken, *sold.told]))
