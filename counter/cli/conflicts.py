"""`counter conflicts`: rows that two laptops changed without knowing of each other; say which holds."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Mapping
from typing import Any

from counter.cli.call import Call, Reply
from counter.cli.place import open_ledger
from counter.ledger.ledger import Ledger
from counter.ledger.merge import settle
from counter.values.trouble import BadWords

OURS = "here"


def arguments(parser: ArgumentParser) -> None:
    """Nothing lists what is open; a conflict and a side settles it."""
    parser.add_argument("conflict", nargs="?", metavar="CONFLICT", help='e.g. "items WK-12"')
    parser.add_argument(
        "side", nargs="?", metavar="SIDE", help=f"{OURS}, or the entry whose version holds"
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{open: [{id, table, key, here, versions: [{entry, laptop, at, verb, row}]}], settled}."""
    with open_ledger(call) as ledger:
        settled = None
        if chosen.conflict is not None:
            row = _row_of(ledger, chosen.conflict, chosen.side)
            settled = settle(ledger, chosen.conflict, row, f"settled: {chosen.side} holds").id
        left = [
            {**each, "here": ledger.row(each["table"], each["key"])}
            for each in ledger.rows("conflicts")
        ]
    lines = [line for each in left for line in _lines(each)] or ["Nothing is left to settle."]
    return Reply({"open": left, "settled": settled}, "\n".join(lines))


def _row_of(ledger: Ledger, conflict: str, side: str | None) -> Mapping[str, Any] | None:
    """The row of the side that holds. Raises BadWords on a conflict or side that is not there."""
    found = ledger.row("conflicts", conflict)
    if found is None:
        raise BadWords(f"There is no open conflict {conflict}; counter conflicts lists them.")
    rows = {version["entry"]: version["row"] for version in found["versions"]}
    rows[OURS] = ledger.row(found["table"], found["key"])
    if side not in rows:
        raise BadWords(f"Say which side holds: {', '.join(rows)}.")
    row: Mapping[str, Any] | None = rows[side]
    return row


def _lines(conflict: Mapping[str, Any]) -> list[str]:
    here = conflict["here"] or {}
    lines = [f"{conflict['id']}", f"  {OURS}: {_words(here)}"]
    for version in conflict["versions"]:
        said = f"{version['laptop']} {version['at']} {version['verb']}: {_words(version['row'] or {})}"
        different = _difference(here, version["row"] or {})
        lines.append(f"  {version['entry']}: {said}{different}")
    return lines


def _words(row: Mapping[str, Any]) -> str:
    return str(row.get("status", "in the table")) if row else "taken out"


def _difference(ours: Mapping[str, Any], theirs: Mapping[str, Any]) -> str:
    names = [name for name in {**ours, **theirs} if ours.get(name) != theirs.get(name)]
    told = [f"{name} {ours.get(name, 'none')} / {theirs.get(name, 'none')}" for name in names]
    return f" (here / there: {'; '.join(told)})" if told else ""
