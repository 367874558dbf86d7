"""`counter buy "2d blue pl 3 KC £45 cash harrow"`: note a purchase in one line, durably."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import replace

from counter.cli.call import Call, Reply
from counter.cli.deals import day_of
from counter.describe.description import short_line
from counter.trade.buying import note_purchase
from counter.values.errors import InputError
from counter.values.money import pounds, read_pence
from counter.values.record import write_row


def arguments(parser: ArgumentParser) -> None:
    """The line itself; --date when it was another day; --look to read it back only."""
    parser.add_argument("line", nargs="+", metavar="WORDS", help="what, price, payment, seller")
    parser.add_argument("--date", metavar="DATE", help="day of the purchase; today if left out")
    parser.add_argument(
        "--scheme", choices=("margin", "global", "ordinary", "none"), default="", help="how VAT is done"
    )
    parser.add_argument("--reason", default="", help="why no scheme, while registered for VAT")
    parser.add_argument(
        "--vat", metavar="SUM", default="0", help="VAT shown on the paper, in the price"
    )
    parser.add_argument("--invoice", metavar="NUMBER", default="", help="the seller's invoice")
    parser.add_argument("--stock-number", metavar="NUMBER", default="", help="the seller's own")
    parser.add_argument("--look", action="store_true", help="read it back and note nothing")


def run(chosen: Namespace, call: Call) -> Reply:
    """{noted, purchase, items, total_pence, payment, seller, owed, told}."""
    line = " ".join(chosen.line)
    if not line.strip():
        raise InputError("Say what was bought, as: 2d blue pl 3 KC £45 cash harrow.")
    trading = call.desk.trading
    read = trading.read_deal(line, day_of(chosen.date, trading), chosen.scheme)
    names = trading.names
    deal = replace(
        read.deal,
        reason=chosen.reason,
        vat_pence=read_pence(chosen.vat, "the VAT"),
        invoice_number=chosen.invoice,
        stock_number=chosen.stock_number,
    )
    if chosen.look:
        data = {"noted": False, "total_pence": deal.total_pence, "payment": deal.payment}
        data |= {"seller": deal.seller, "items": [write_row(each) for each in deal.pieces]}
        words = [short_line(each, names) for each in deal.pieces]
        said = f"{pounds(deal.total_pence)} {deal.payment} {deal.seller}".strip()
        return Reply(data, "\n".join([*words, said, "Nothing was noted."]))
    bought = note_purchase(trading.settings, deal)
    owed = trading.ledger.purchases.wanting(bought.purchase)
    data = {
        "noted": True,
        "purchase": bought.purchase.id,
        "items": [write_row(each) for each in bought.items],
        "total_pence": bought.purchase.total_pence,
        "payment": bought.purchase.payment,
        "seller": bought.purchase.seller,
        "owed": list(owed),
        "told": list(bought.told),
    }
    text = [f"{each.number}  {short_line(each, names)}" for each in bought.items]
    text.append(f"Noted as {bought.purchase.id}: {pounds(read.deal.total_pence)} {read.deal.payment}")
    text += [f"Still owed: {', '.join(owed)}"] if owed else []
    return Reply(data, "\n".join([*text, *bought.told]))
