"""`counter sell WK-1=72.50 --paid cash=72.50 --buyer "Mr Green"`: a sale in one entry."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Mapping

from counter.cli.call import Call, Reply
from counter.cli.deals import day_of, not_by_half, payments
from counter.desk.trade.purchase_line import read_prices
from counter.desk.trade.quotes import take_kept
from counter.desk.trade.sell import SaleTerms, priced, read_agreed, read_sale, sale_words, sell
from counter.desk.trade.trading import Trading
from counter.store.records.sale import DISPOSALS
from counter.trade.selling import BELOW_FLOOR, Sold
from counter.values.currency import Currency
from counter.values.date_words import day_of_words
from counter.values.errors import InputError
from counter.values.money import pounds, read_pence
from counter.values.quote import RunningQuote
from counter.values.record import write_row


def arguments(parser: ArgumentParser) -> None:
    """Stock numbers with their prices (the asking price if none), and how it is paid."""
    parser.add_argument("pieces", nargs="*", metavar="NUMBER[=SUM]")
    parser.add_argument("--quote", metavar="NUMBER", help="sell what a kept quote offers")
    parser.add_argument(
        "--discount", metavar="10%|SUM", default="", help="10%%, or a price for the lot"
    )
    parser.add_argument("--agreed", action="store_true", help="more than half off is meant")
    parser.add_argument("--paid", action="append", metavar="HOW=SUM", help="cash=20; may be repeated")
    parser.add_argument("--payment", metavar="HOW", help="the whole sum by one way")
    parser.add_argument("--postage", metavar="SUM", default="0", help="packing and postage charged")
    parser.add_argument(
        "--in",
        dest="currency",
        default="",
        metavar="CODE|SUM",
        help="at your own rate; €200 if agreed",
    )
    parser.add_argument("--buyer", default="", help="name, or number of a person")
    parser.add_argument("--business", action="store_true", help="the buyer is in business")
    parser.add_argument("--date", metavar="DATE", help="today if left out")
    parser.add_argument("--deposit", action="store_true", help="hold it: what is paid is a deposit")
    parser.add_argument("--approval", metavar="DATE", help="on approval, due back by that day")
    parser.add_argument("--disposal", choices=DISPOSALS, default="sold", help="how else it left")
    parser.add_argument("--vat-shown", action="store_true", help="ordinary VAT on the whole invoice")
    parser.add_argument("--exchange", metavar="LINE", help='taken in: "1d red pl 9 £20"')


def run(chosen: Namespace, call: Call) -> Reply:
    """{sale, status, total_pence, lines, vat_pence, exchange_purchase, told}."""
    trading = call.desk.trading
    if chosen.payment and chosen.paid:
        raise InputError("Say --payment or --paid, not both.")
    day = day_of(chosen.date, trading)
    status = "deposit" if chosen.deposit else "on approval" if chosen.approval else "complete"
    currency, agreed = read_agreed(chosen.currency, trading.settings.facts.currencies)
    terms = SaleTerms(
        day=day,
        status=status,
        payment=chosen.payment or "",
        paid=payments(chosen.paid),
        due_back=day_of_words(chosen.approval) if chosen.approval else "",
        buyer=chosen.buyer,
        buyer_kind="business" if chosen.business else "",
        postage_pence=read_pence(chosen.postage, "the postage"),
        currency=currency,
        agreed=agreed,
        exchange=chosen.exchange or "",
        disposal=chosen.disposal,
        vat_shown=chosen.vat_shown,
    )
    read = read_sale(trading, _wanted(chosen, trading, day), terms)
    sold, exchange = sell(trading, read)
    return reply_of(sold, trading.settings.facts.currencies, exchange, costs=call.costs)


def _wanted(chosen: Namespace, trading: Trading, day: str) -> RunningQuote:
    if not chosen.quote:
        free = chosen.disposal != "sold"
        running = priced(trading, read_prices(chosen.pieces), free=free).discounted(chosen.discount)
        return not_by_half(running, agreed=chosen.agreed)
    if chosen.pieces or chosen.discount:
        raise InputError("A quote has its own pieces and prices; leave them out.")
    return take_kept(trading, chosen.quote, day)


def reply_of(
    sold: Sold, known: Mapping[str, Currency], exchange: str = "", *, costs: bool = False
) -> Reply:
    """A noted sale as a reply; what tells of a floor is printed with --costs alone."""
    sale = sold.sale
    vat = [each.vat_pence for each in sale.lines if each.vat_pence is not None]
    data = write_row(sale) | {"sale": sale.id, "status": sale.status, "vat_pence": sum(vat)}
    data |= {"exchange_purchase": exchange or sale.exchange_purchase, "told": list(sold.told)}
    lines = [
        f"{each.item:<10}{pounds(each.price_pence - each.discount_pence):>12}  {each.words}".rstrip()
        for each in sale.lines
    ]
    told = [each for each in sold.told if costs or BELOW_FLOOR not in each]
    own = len(sold.told) - len(told)
    told += [f"{own} for your own eyes: --costs shows it."] if own else []
    return Reply(data, "\n".join([*lines, *sale_words(sold, known, exchange), *told]))
