"""`counter close-day --counted 240.50`: the day's takings, what the box should hold, what is owed."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import as_json, day_of
from counter.desk.trade.close_day import KINDS, note_box
from counter.trade.day_totals import close_day, day_text, look_at_day
from counter.trade.stock_book_totals import registration_warning
from counter.values.errors import InputError
from counter.values.money import read_pence

#: What stands where the dealer's own is left out.
COVERED = "What was paid and the profit are for your own eyes: --costs shows them."


def arguments(parser: ArgumentParser) -> None:
    """Without --counted it only looks."""
    parser.add_argument("--counted", metavar="SUM", help="what the box holds; closes the day")
    parser.add_argument("--date", metavar="DATE", help="today if left out")
    parser.add_argument(
        "--cash", action="append", metavar="KIND=SUM", help=f"note cash first: {', '.join(KINDS)}"
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """The day: takings and paid_out by payment, box, counted, difference, profit, owed; in pence."""
    counted = read_pence(chosen.counted, "what was counted") if chosen.counted else None
    noted = [_cash(each) for each in chosen.cash or ()]
    trading = call.desk.trading
    book, day = trading.book, day_of(chosen.date, trading)
    for kind, pence in noted:
        note_box(book, kind, pence, day)
    seen = look_at_day(book, day) if counted is None else close_day(book, day, counted)
    data = as_json(seen) | {"difference": seen.difference, "other_cash": seen.other_cash}
    warned = registration_warning(book, day)
    data |= {"told": [warned] if warned else []}
    own = "" if call.costs else COVERED
    return Reply(data, "\n".join(filter(None, [day_text(seen, costs=call.costs), own, warned])))


def _cash(words: str) -> tuple[str, int]:
    kind, sign, pence = words.partition("=")
    if not sign or kind not in KINDS:
        raise InputError(f"{words} should be written like float=100; kinds are {', '.join(KINDS)}.")
    return kind, read_pence(pence, "a sum of cash")
