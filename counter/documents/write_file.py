"""A paper, a book or a list written to a file that the dealer names."""

from __future__ import annotations

import os
from pathlib import Path

from counter.store import device_id, journal, snapshot
from counter.store.files import Disk, must_be_new, os_error_message, write_beside
from counter.values.errors import InputError, UserError

#: On the screen a bare name goes into the data folder, where these would be replaced.
_DATA_FILES = (journal.NAME, device_id.NAME, snapshot.NAME, snapshot.PREVIOUS, "lock")


def write_whole(path: Path, content: str | bytes, *, over: bool = False) -> None:
    """Write a file (text as UTF-8) whole, beside and then in place, readable by its owner alone.

    `over` an older file of that name only when the dealer was told of it. Raises InputError for a name
    that cannot be a file's, UserError when one is there, no such folder is, or the disk refuses; what
    stood there before is then still there.
    """
    if not path.name or os.path.isdir(path):
        raise InputError(f"{path} is a folder; add the name of the file to write.")
    if path.name in _DATA_FILES:
        raise InputError(f"{path.name} is the name of a data file; give the file another.")
    if os.path.exists(path) and not os.path.isfile(path):
        raise InputError(f"{path} is a device and not a file; give another name.")
    if not os.path.isdir(path.parent):
        raise UserError(f"There is no folder {path.parent} to put the file in.")
    if not over:
        must_be_new(path, "the file")
    try:
        write_beside(path, [content.encode() if isinstance(content, str) else content], disk=Disk())
    except OSError as fault:
        raise os_error_message(fault, "writing the file", path) from fault
