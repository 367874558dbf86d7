"""`counter correct WK-P1 --set total=45 --reason "a nought too many"`; `counter correct --last`."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import MANY, day_of, pairs
from counter.trade.corrections import PURCHASE_FIELDS, correct
from counter.trade.sale_corrections import SALE_FIELDS
from counter.values.errors import InputError
from counter.values.record import write_row


def arguments(parser: ArgumentParser) -> None:
    """The purchase or sale and what is right, or the last entry taken back."""
    parser.add_argument("number", nargs="?", metavar="NUMBER", help="of a purchase or a sale")
    parser.add_argument(
        "--set",
        **MANY,
        default=[],
        metavar="NAME=VALUE",
        help=f"of a purchase {', '.join(PURCHASE_FIELDS)}; of a sale {', '.join(SALE_FIELDS)}, WK-2=90",
    )
    parser.add_argument("--reason", default="", help="why it was wrong")
    parser.add_argument("--date", metavar="DATE", help="of the correction; today if left out")
    parser.add_argument("--last", action="store_true", help="take the last entry back")


def run(chosen: Namespace, call: Call) -> Reply:
    """The corrected row and `told`: what moved elsewhere; or {taken_back} in words."""
    if chosen.last:
        if chosen.number or chosen.set:
            raise InputError("--last takes the last entry back whole; leave the rest out.")
        said = call.desk.take_back()
        return Reply({"taken_back": said}, said)
    if not chosen.number:
        raise InputError("Say which purchase or sale, as WK-P1, or --last for the last entry.")
    trading = call.desk.trading
    wanted = pairs(chosen.set, "total=45")
    done = correct(trading.settings, chosen.number, wanted, day_of(chosen.date, trading), chosen.reason)
    said = f"{done.record.id} is corrected; what it said before stands in its remarks."
    return Reply(write_row(done.record) | {"told": list(done.told)}, "\n".join([said, *done.told]))
