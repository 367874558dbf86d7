"""`counter owed`: purchases with something still to complete; `counter owed PURCHASE --set ...`."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import MANY, day_of, pairs
from counter.desk.trade.open_purchases import note_answers, owing
from counter.trade.buying import pay_purchase
from counter.values.errors import InputError
from counter.values.money import read_pence
from counter.values.record import write_row


def arguments(parser: ArgumentParser) -> None:
    """Without a purchase, the list."""
    parser.add_argument("purchase", nargs="?", metavar="PURCHASE", help="number of one purchase")
    parser.add_argument(
        "--set",
        **MANY,
        default=[],
        metavar="NAME=VALUE",
        help="seller, address, seller_kind, payment...",
    )
    parser.add_argument("--paid", metavar="HOW[=SUM]", help="what was owed to the seller is paid")
    parser.add_argument("--date", metavar="DATE", help="the day it was paid; today if left out")


def run(chosen: Namespace, call: Call) -> Reply:
    """{owed: [{purchase, date, owed}]}, or the completed purchase."""
    trading = call.desk.trading
    if chosen.paid:
        if not chosen.purchase or chosen.set:
            raise InputError("Say which purchase is paid, as counter owed WK-P1 --paid cash.")
        how, _, sum_ = chosen.paid.partition("=")
        pence = read_pence(sum_, "the payment") if sum_ else None
        day = day_of(chosen.date, trading)
        paid = pay_purchase(trading.settings, chosen.purchase, how, day, pence)
        return Reply(write_row(paid), f"{paid.id}: paid on {day} by {how}.")
    if chosen.purchase:
        details = pairs(chosen.set, "seller=Harrow")
        said = note_answers(trading, chosen.purchase, details)
        done = owing(trading, chosen.purchase)
        return Reply(write_row(done.purchase) | {"owed": list(done.owed)}, said)
    found = trading.ledger.purchases.incomplete()
    data = [{"purchase": each.id, "date": each.date, "owed": list(owed)} for each, owed in found]
    lines = [f"{each.id:<8}{each.date}  {', '.join(owed)}" for each, owed in found]
    return Reply({"owed": data}, "\n".join(lines) or "Nothing is owed.")
