"""`counter conflicts`: rows that two laptops changed without knowing of each other; say which holds."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.place import open_ledger
from counter.desk.data.merge_conflicts import HERE, MergeConflict, open_conflicts, row_words, settle_for
from counter.values.record import write_row


def arguments(parser: ArgumentParser) -> None:
    """Nothing lists what is open; a conflict and a side settles it."""
    parser.add_argument("conflict", nargs="?", metavar="CONFLICT", help='e.g. "items WK-12"')
    parser.add_argument(
        "side", nargs="?", metavar="SIDE", help=f"{HERE}, or the entry whose version holds"
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{open: [{id, table, key, here, versions: [{entry, laptop, at, verb, row}]}], settled}."""
    with open_ledger(call) as ledger:
        settled = None
        if chosen.conflict is not None:
            settled = settle_for(ledger, chosen.conflict, chosen.side or "").id
        left = open_conflicts(ledger)
        data = [
            {**write_row(each), "here": ledger.row(each.table, each.key)}
            for each in ledger.conflicts.records()
        ]
    lines = [line for each in left for line in _lines(each)] or ["Nothing is left to settle."]
    return Reply({"open": data, "settled": settled}, "\n".join(lines))


def _lines(both: MergeConflict) -> list[str]:
    lines = [both.id]
    if both.sold:
        lines.append(f"  sold {len(both.sold)} times: {'; '.join(both.sold)}")
    for place, side in enumerate(both.sides):
        told = "" if side.name == HERE else f" {side.told}"
        differing = [f"{label} {values[place]}" for label, values in both.differing]
        words = "; ".join(differing) or row_words(side.row)
        lines.append(f"  {side.name}:{told}: {words}" if told else f"  {side.name}: {words}")
    return lines
