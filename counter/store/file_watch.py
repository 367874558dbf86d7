"""Whether an open file is still the one at its path, and as long as it was left.

Asked at every line that is written, so it must cost little. Looking at the path (stat) asks for the
file's times too, and Linux then notes the time of the next change exactly, which makes the wait for the
disk a tenth longer; its name of the open file tells as much and asks for no time.
"""

from __future__ import annotations

import os
from pathlib import Path


class FileWatch:
    """Watches the file at `path` that `handle` is open on. Raises OSError when it cannot be seen."""

    def __init__(self, handle: int, path: Path) -> None:
        self._handle = handle
        self._path = os.fspath(path)
        self._mine = os.fstat(handle)
        self._link = f"/proc/self/fd/{handle}"
        self._name = self._name_now()

    def is_long(self, length: int) -> bool:
        """Whether it is of `length` bytes."""
        return os.lseek(self._handle, 0, os.SEEK_END) == length

    def lost(self) -> str:
        """ "" when it is at its path; else "gone" or "replaced"."""
        if self._name and self._name_now() == self._name:
            return ""
        try:
            there = os.stat(self._path)
        except OSError:
            return "gone"
        return "" if os.path.samestat(self._mine, there) else "replaced"

    def _name_now(self) -> str:
        """The open file's full name today, marked when it was removed; "" where no system tells."""
        try:
            return os.readlink(self._link)
        except OSError:
            return ""
