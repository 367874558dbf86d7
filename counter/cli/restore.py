"""`counter restore FILE`: put a backup back, into an empty folder or with the present one set aside."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict

from counter.cli.call import Call, Reply
from counter.cli.place import data_folder, open_ledger
from counter.cli.verify import report_words
from counter.desk.data.messages import recovered_words, restored_words
from counter.desk.data_dir import local_time
from counter.store.backup import restore
from counter.store.recover import recover
from counter.values.errors import InputError
from counter.values.paths import path_of


def arguments(parser: ArgumentParser) -> None:
    """The backup, and what to do with what is there."""
    parser.add_argument("file", metavar="FILE", nargs="?", help="a backup made by: counter backup")
    parser.add_argument(
        "--from-snapshot",
        action="store_true",
        help="no backup: carry the rows of the snapshot into a journal that lost its end",
    )
    parser.add_argument("--set-aside", action="store_true", help="rename the present data and keep it")
    parser.add_argument(
        "--same-laptop",
        action="store_true",
        help="go on with the old laptop's numbers (only when the old one is gone)",
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{folder, set_aside, entries, sound}; from the snapshot {rows, aside}."""
    if chosen.from_snapshot:
        return _from_snapshot(call)
    if chosen.file is None:
        raise InputError("Name the backup to restore, e.g. counter restore stock.zip.")
    folder = data_folder(call)
    done = restore(
        path_of(chosen.file),
        folder,
        now=local_time(),
        same_laptop=chosen.same_laptop,
        set_aside=chosen.set_aside,
    )
    aside = str(done.aside) if done.aside else None
    data = {"folder": str(done.folder), "set_aside": aside, **asdict(done.report)}
    text = f"{restored_words(done)}\n{report_words(done.report)}"
    return Reply({**data, "sound": done.report.sound}, text)


def _from_snapshot(call: Call) -> Reply:
    with open_ledger(call) as ledger:
        done = recover(ledger)
    return Reply(asdict(done), recovered_words(done))
