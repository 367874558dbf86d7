"""`counter owed`: purchases with something still to complete; `counter owed PURCHASE --set ...`."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import open_dealing, pairs
from counter.ledger.buying import all_owed, complete_purchase, still_owed
from counter.ledger.records.purchase import PURCHASE


def arguments(parser: ArgumentParser) -> None:
    """Without a purchase, the list."""
    parser.add_argument("purchase", nargs="?", metavar="PURCHASE")
    parser.add_argument(
        "--set", nargs="+", default=[], metavar="NAME=VALUE", help="seller, seller_kind, payment..."
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{owed: [{purchase, date, owed}]}, or the completed purchase."""
    with open_dealing(call) as dealing:
        if chosen.purchase:
            details = pairs(chosen.set, "seller=Harrow")
            done = complete_purchase(dealing.house, chosen.purchase, **details)
            left = still_owed(dealing.desk.ledger, done)
            said = f"Still owed: {', '.join(left)}." if left else "Complete."
            return Reply(PURCHASE.write(done) | {"owed": list(left)}, f"{done.id}: {said}")
        found = all_owed(dealing.desk.ledger)
    data = [{"purchase": each.id, "date": each.date, "owed": list(owed)} for each, owed in found]
    lines = [f"{each.id:<8}{each.date}  {', '.join(owed)}" for each, owed in found]
    return Reply({"owed": data}, "\n".join(lines) or "Nothing is owed.")
