"""`counter owed`: purchases with something still to complete; `counter owed PURCHASE --set ...`."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import MANY, pairs
from counter.desk.trade.open_purchases import note_answers, owing
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


def run(chosen: Namespace, call: Call) -> Reply:
    """{owed: [{purchase, date, owed}]}, or the completed purchase."""
    trading = call.desk.trading
    if chosen.purchase:
        details = pairs(chosen.set, "seller=Harrow")
        said = note_answers(trading, chosen.purchase, details)
        done = owing(trading, chosen.purchase)
        return Reply(write_row(done.purchase) | {"owed": list(done.owed)}, said)
    found = trading.ledger.purchases.incomplete()
    data = [{"purchase": each.id, "date": each.date, "owed": list(owed)} for each, owed in found]
    lines = [f"{each.id:<8}{each.date}  {', '.join(owed)}" for each, owed in found]
    return Reply({"owed": data}, "\n".join(lines) or "Nothing is owed.")
