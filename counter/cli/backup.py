"""`counter backup FILE`: the whole ledger in one file, to keep somewhere else."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.place import data_folder
from counter.desk.data.messages import backed_up_words
from counter.desk.data_dir import local_time
from counter.store.backup import backup
from counter.values.paths import path_of


def arguments(parser: ArgumentParser) -> None:
    """The file to write."""
    parser.add_argument("file", metavar="FILE", help="the backup to write; must not be there yet")


def run(chosen: Namespace, call: Call) -> Reply:
    """{file, entries, bytes}."""
    folder = data_folder(call)
    done = backup(folder, path_of(chosen.file), now=local_time())
    data = {"file": str(done.file), "entries": done.entries, "bytes": done.size}
    return Reply(data, backed_up_words(done))
