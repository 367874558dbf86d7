"""A paper, a book or a list written to a file that the dealer names."""

from __future__ import annotations

import os
from pathlib import Path

from counter.ledger import journal, laptop, snapshot
from counter.ledger.files import Disk, must_be_new, why_not, write_beside
from counter.values.trouble import BadWords, Trouble

#: On the screen a bare name goes into the data folder, where these would be replaced.
_DATA_FILES = (journal.NAME, laptop.NAME, snapshot.NAME, snapshot.PREVIOUS, "lock")


def write_whole(path: Path, content: str, *, over: bool = False) -> None:
    """Write a text file (UTF-8) whole, beside and then in place, readable by its owner alone.

    `over` an older file of that name only when the dealer was told of it. Raises BadWords for a name
    that cannot be a file's, Trouble when one is there, no such folder is, or the disk refuses; what
    stood there before is then still there.
    """
    if not path.name or os.path.isdir(path):
        raise BadWords(f"{path} is a folder; add the name of the file to write.")
    if path.name in _DATA_FILES:
        raise BadWords(f"{path.name} is the name of a data file; give the file another.")
    if os.path.exists(path) and not os.path.isfile(path):
        raise BadWords(f"{path} is a device and not a file; give another name.")
    if not os.path.isdir(path.parent):
        raise Trouble(f"There is no folder {path.parent} to put the file in.")
    if not over:
        must_be_new(path, "the file")
    try:
        write_beside(path, [content.encode()], disk=Disk())
    except OSError as fault:
        raise why_not(fault, "writing the file", path) from fault
