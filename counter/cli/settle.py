"""`counter settle SALE ...`: a balance, approval kept or sent back, a refund, a deposit ended."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import MANY, day_of
from counter.cli.sell import reply_of
from counter.desk.trade.after_sale import Settlement, settle_sale
from counter.values.errors import InputError
from counter.values.money import read_pence


def arguments(parser: ArgumentParser) -> None:
    """What became of a sale."""
    parser.add_argument("sale", metavar="SALE", help="number of the sale")
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument(
        "--balance", metavar="SUM", nargs="?", const="", help="paid; all if no sum is said"
    )
    what.add_argument("--keep", **MANY, metavar="NUMBER", help="kept of what was on approval")
    what.add_argument("--sent-back", action="store_true", help="nothing was kept")
    what.add_argument(
        "--refund",
        nargs="*",
        action="extend",
        metavar="NUMBER",
        help="came back; all that is left if none",
    )
    what.add_argument("--allowance", metavar="SUM", help="kept by the buyer, with so much paid back")
    what.add_argument("--handed-over", action="store_true", help="the goods held on a deposit went")
    what.add_argument("--cancel", action="store_true", help="a reservation falls through")
    what.add_argument("--buyer", metavar="NAME", help="who bought, where it was not said")
    parser.add_argument("--on", **MANY, metavar="NUMBER", help="of an allowance")
    parser.add_argument(
        "--payment", metavar="HOW", default="", help="cash if left out; back the way it was paid"
    )
    parser.add_argument("--reason", default="", help="why it came back")
    parser.add_argument("--kept-back", metavar="SUM", default="0", help="kept of the deposit")
    parser.add_argument("--date", metavar="DATE", help="today if left out")


def run(chosen: Namespace, call: Call) -> Reply:
    """The sale (or the refund) as it stands then."""
    trading = call.desk.trading
    sold = settle_sale(trading, chosen.sale, _settlement(chosen, day_of(chosen.date, trading)))
    return reply_of(sold, trading.settings.facts.currencies, costs=call.costs)


def _settlement(chosen: Namespace, day: str) -> Settlement:
    how = chosen.payment
    if chosen.on and chosen.allowance is None:
        raise InputError("--on says what an allowance is made on; say --allowance as well.")
    if chosen.balance is not None:
        pence = read_pence(chosen.balance, "the payment") if chosen.balance else None
        return Settlement("balance", day, how, pence=pence)
    if chosen.refund is not None:
        return Settlement("refund", day, how, chosen.refund, reason=chosen.reason)
    if chosen.allowance is not None:
        pence = read_pence(chosen.allowance, "an allowance")
        return Settlement("allowance", day, how, chosen.on or (), pence, chosen.reason)
    if chosen.handed_over:
        return Settlement("hand over", day)
    if chosen.cancel:
        return Settlement("cancel", day, how, pence=read_pence(chosen.kept_back, "what is kept"))
    if chosen.buyer is not None:
        return Settlement("buyer", day, buyer=chosen.buyer)
    if chosen.keep:
        return Settlement("keep", day, how, chosen.keep)
    return Settlement("sent back", day, how)
