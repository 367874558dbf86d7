"""`counter merge FOLDER`: bring in what was noted on another laptop."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict

from counter.cli.call import Call, Reply
from counter.cli.place import open_ledger
from counter.desk.data.merge_conflicts import row_words
from counter.desk.data.messages import merged_words
from counter.store.merge import Conflict, merge
from counter.values.paths import path_of


def arguments(parser: ArgumentParser) -> None:
    """The other laptop's data folder."""
    parser.add_argument(
        "other", metavar="FOLDER", help="the other laptop's data folder, or a copy of it"
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{brought, known, conflicts: [{table, key, ours, theirs, laptop, entry}], told}."""
    with open_ledger(call) as ledger:
        done = merge(ledger, path_of(chosen.other, "other data folder"))
    lines = [merged_words(done)]
    lines += [_words(each) for each in done.conflicts]
    if done.conflicts:
        lines.append("Yours stand until you settle them; the other laptop's are kept.")
    return Reply(asdict(done), "\n".join([*lines, *done.told]))


def _words(conflict: Conflict) -> str:
    return (
        f" > {conflict.key} in {conflict.table} was changed on both: here {row_words(conflict.ours)}, "
        f"on {conflict.laptop} {row_words(conflict.theirs)}."
    )
