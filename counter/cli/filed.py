"""`counter filed "q2 2026"`: freeze a return as filed; `counter filed`: the filed ones and later changes."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.accounts import COVERED
from counter.cli.call import Call, Reply
from counter.cli.deals import as_json, day_of
from counter.desk.trade.accounts import file_period, filed_returns
from counter.documents.accounts_pages import filed_text
from counter.reference.money import DEFER


def arguments(parser: ArgumentParser) -> None:
    """The period to file; without one, what was filed."""
    parser.add_argument("period", nargs="*", metavar="PERIOD", help="q2 2026; none: what was filed")
    parser.add_argument("--date", metavar="DATE", help="the day it was filed; today if left out")
    parser.add_argument("--reference", default="", help="the receipt's number")


def run(chosen: Namespace, call: Call) -> Reply:
    """{filed: [{id, since, until, boxes, changes}]}; sums in pence."""
    trading = call.desk.trading
    if chosen.period:
        words, day = " ".join(chosen.period), day_of(chosen.date, trading)
        filed = file_period(trading, words, day, chosen.reference)
        said = (
            f"{filed.id}: {filed.since} to {filed.until} is frozen as filed; it sends nothing to HMRC."
        )
        return Reply(as_json(filed), "\n".join([said, DEFER]))
    every = filed_returns(trading)
    data = [
        as_json(each.filed) | {"moved": as_json(each.boxes), "changes": as_json(each.changes)}
        for each in every
    ]
    lines = [filed_text(each) for each in every] if call.costs else [COVERED]
    return Reply({"filed": data}, "\n".join([*lines, DEFER]) if every else "No return was filed.")
