"""`counter export stock|purchases|sales FILE`: the books as a CSV file."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.place import open_ledger
from counter.csv_files.exporting import KINDS, export
from counter.values.paths import path_of


def arguments(parser: ArgumentParser) -> None:
    """What to write, and where."""
    parser.add_argument("kind", choices=KINDS, help="which books")
    parser.add_argument("file", metavar="FILE", help="the CSV file to write; must not be there yet")


def run(chosen: Namespace, call: Call) -> Reply:
    """{kind, file, lines}."""
    file = path_of(chosen.file)
    with open_ledger(call) as ledger:
        count = export(ledger, chosen.kind, file)
    data = {"kind": chosen.kind, "file": str(file), "lines": count}
    return Reply(data, f"{file} holds the {chosen.kind}; lines: {count:,}.")
