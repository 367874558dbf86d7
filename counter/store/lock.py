"""One writer at a time: a lock that says who holds it and ends with its holder.

The operating system's own file lock is what counts, so it is gone the moment its holder is; the
words in the file only say who that was.
"""

from __future__ import annotations

import getpass
import json
import os
import platform
from dataclasses import asdict, dataclass
from pathlib import Path

from counter.store.files import open_private

_FAR = 1 << 20  # Windows locks bytes: one far behind the words, so that others can read them


@dataclass(frozen=True, slots=True)
class Holder:
    """Who writes: the person, the process, the machine, and since when (ISO)."""

    who: str
    pid: int
    host: str
    since: str

    def words(self) -> str:
        """As said to a person whose window may only read."""
        return f"{self.who} (process {self.pid} on {self.host}, since {self.since})"


class Lock:
    """The held lock of a data folder."""

    def __init__(self, handle: int) -> None:
        self._handle = handle

    def release(self) -> None:
        """Let the next writer in. The file stays: removing it would race with an opener."""
        if self._handle >= 0:
            os.ftruncate(self._handle, 0)
            os.close(self._handle)
            self._handle = -1


def take_lock(folder: Path, since: str) -> Lock | Holder:
    """The lock, or who holds it. Raises OSError when the lock file cannot be written."""
    path = folder / "lock"
    handle = open_private(path, os.O_RDWR | os.O_CREAT)
    if not _try(handle):
        os.close(handle)
        return read_holder(path)
    holder = Holder(_who(), os.getpid(), platform.node(), since)
    os.ftruncate(handle, 0)
    os.write(handle, json.dumps(asdict(holder)).encode())
    return Lock(handle)


def read_holder(path: Path) -> Holder:
    """Who the lock file names."""
    try:
        return Holder(**json.loads(path.read_bytes()))
    except (OSError, ValueError, TypeError):
        return Holder("another window", 0, "this computer", "a moment ago")


def _who() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return "somebody"


def _try(handle: int) -> bool:
    try:
        if os.name == "nt":
            import msvcrt

            os.lseek(handle, _FAR, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]
            os.lseek(handle, 0, os.SEEK_SET)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
