"""`counter cost stand 45 --vat 7.50 --fair WK-F1`: a cost beside the stock, by category."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import day_of
from counter.store.records.accounts import CATEGORIES, Outlay
from counter.trade.fairs import note_cost
from counter.values.money import pounds, read_pence
from counter.values.record import write_row


def arguments(parser: ArgumentParser) -> None:
    """What it was for and what was paid."""
    parser.add_argument("category", choices=CATEGORIES, help="what it was for")
    parser.add_argument("sum", metavar="SUM", help="all that was paid")
    parser.add_argument("--vat", metavar="SUM", default="0", help="VAT shown within it")
    parser.add_argument("--paid", metavar="HOW", default="cash", help="cash if left out")
    parser.add_argument("--item", metavar="NUMBER", default="", help="the piece it was for")
    parser.add_argument("--fair", metavar="NUMBER", default="", help="the fair it was for")
    parser.add_argument("--for", dest="words", default="", metavar="WORDS", help="a word to it")
    parser.add_argument("--date", metavar="DATE", help="today if left out")


def run(chosen: Namespace, call: Call) -> Reply:
    """The cost as noted."""
    trading = call.desk.trading
    wanted = Outlay(
        id="-",
        date=day_of(chosen.date, trading),
        category=chosen.category,
        pence=read_pence(chosen.sum, "a cost"),
        vat_pence=read_pence(chosen.vat, "the VAT"),
        method=chosen.paid,
        item=chosen.item.upper(),
        fair=chosen.fair.upper(),
        words=chosen.words,
    )
    done = note_cost(trading.settings, wanted)
    return Reply(write_row(done), f"Noted as {done.id}: {done.category} {pounds(done.pence)}.")
