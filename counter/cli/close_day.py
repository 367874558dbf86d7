"""`counter close-day --counted 240.50`: the day's takings, what the box should hold, what is owed."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import as_json, day_of, open_dealing
from counter.ledger.day import close_day, day_text, look_at_day, note_cash
from counter.ledger.records.shop import CASH_KINDS
from counter.values.money import read_pence
from counter.values.trouble import BadWords

#: What goes out of the box is noted as negative.
_OUT = ("expense", "banked", "drawn")
_NOTED = tuple(each for each in CASH_KINDS if each not in ("day closed", "difference"))


def arguments(parser: ArgumentParser) -> None:
    """Without --counted it only looks."""
    parser.add_argument("--counted", metavar="SUM", help="what the box holds; closes the day")
    parser.add_argument("--date", metavar="DATE")
    parser.add_argument(
        "--cash", action="append", metavar="KIND=SUM", help=f"note cash first: {', '.join(_NOTED)}"
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """The day: takings and paid_out by payment, box, counted, difference, profit, owed; in pence."""
    counted = read_pence(chosen.counted, "what was counted") if chosen.counted else None
    noted = [_cash(each) for each in chosen.cash or ()]
    with open_dealing(call) as dealing:
        book, day = dealing.book, day_of(chosen.date, dealing)
        for kind, pence in noted:
            note_cash(book, kind, pence, day)
        seen = look_at_day(book, day) if counted is None else close_day(book, day, counted)
    data = as_json(seen) | {"difference": seen.difference}
    return Reply(data, day_text(seen))


def _cash(words: str) -> tuple[str, int]:
    kind, sign, pence = words.partition("=")
    if not sign or kind not in _NOTED:
        raise BadWords(f"{words} should be written like float=100; kinds are {', '.join(_NOTED)}.")
    amount = read_pence(pence, "a sum of cash")
    return kind, -amount if kind in _OUT else amount
