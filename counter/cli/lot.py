"""`counter lot PURCHASE WK-1=80 WK-2=45`: share a lot's price between its pieces, once."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import as_json, day_of
from counter.desk.trade.split_lot import break_up, split_lot
from counter.values.errors import InputError
from counter.values.money import pounds, read_pence


def arguments(parser: ArgumentParser) -> None:
    """The purchase, then a price for each piece: by stock number, or by its words to break a lot up."""
    parser.add_argument("purchase", metavar="PURCHASE", help="number of the purchase")
    parser.add_argument("prices", nargs="+", metavar="PIECE=SUM", help="expected price of each piece")
    parser.add_argument("--by-hand", action="store_true", help="the sums are the shares themselves")
    parser.add_argument("--new", action="store_true", help="the lot is one line; these are new pieces")
    parser.add_argument("--date", metavar="DATE", help="today if left out")


def run(chosen: Namespace, call: Call) -> Reply:
    """{purchase, basis, shares: {stock number: pence}}."""
    prices: dict[str, int] = {}
    for each in chosen.prices:
        name, sign, price = each.rpartition("=")
        if not sign or name in prices:
            raise InputError(f"{each} should be written like WK-1=80, each piece once.")
        prices[name.strip()] = read_pence(price)
    trading = call.desk.trading
    day = day_of(chosen.date, trading)
    if chosen.new:
        made = break_up(trading, chosen.purchase, list(prices.items()), day)
    else:
        made = split_lot(trading, chosen.purchase, prices, day, by_hand=chosen.by_hand)
    split = made.purchase.split
    assert split is not None
    data = {"purchase": made.purchase.id, "basis": split.basis, "date": split.date}
    data["shares"] = {each.item: each.pence for each in split.shares}  # type: ignore[assignment]
    lines = [
        f"{each.item:<10}{pounds(each.pence) if call.costs else '':>12}".rstrip()
        for each in split.shares
    ]
    said = f"{made.purchase.id} is split {split.how} and stays so."
    hidden = [] if call.costs else ["The shares are for your own eyes: --costs shows them."]
    data["told"] = list(made.told)  # type: ignore[assignment]
    return Reply(as_json(data), "\n".join([*lines, said, *made.told, *hidden]))
