"""Files that only the owner may read and that are whole or not there."""

from __future__ import annotations

import contextlib
import errno
import gc
import os
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from counter.values.errors import UserError

_LINUX_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_READ_ONLY = (errno.EROFS, errno.EACCES, errno.EPERM)


class Disk:
    """The calls that may fail half-way; tests pass in one that does."""

    def write(self, handle: int, data: bytes, at: int) -> int:
        """Write some of the bytes, from byte `at` of the file on; returns how many."""
        if hasattr(os, "pwrite"):
            return os.pwrite(handle, data, at)
        os.lseek(handle, at, os.SEEK_SET)
        return os.write(handle, data)

    def begin(self, handle: int, start: int, count: int) -> None:
        """Have the disk begin on bytes just written, without waiting for it."""
        _begin(handle, start, count)

    def sync(self, handle: int) -> None:
        """Return only when what was written is on the disk itself."""
        _sync(handle)


def _way_to_sync() -> Callable[[int], object]:
    """This system's way: what was written and the file's length, not its times."""
    try:
        import fcntl

        # macOS: fsync alone leaves it in the drive's cache
        full = getattr(fcntl, "F_FULLFSYNC")  # noqa: B009 - other systems' types know no such name
    except (ImportError, AttributeError):
        return getattr(os, "fdatasync", os.fsync)

    def through_the_cache(handle: int) -> None:
        try:
            fcntl.fcntl(handle, full)
        except OSError:  # a disk of another kind (a server's) knows no such call
            os.fsync(handle)

    return through_the_cache


_sync = _way_to_sync()


def _begin(handle: int, start: int, count: int) -> None:
    """Linux sends off what is written before it forgets it, and forgets nothing of less than a page."""
    if hasattr(os, "posix_fadvise"):
        with contextlib.suppress(OSError):  # a hint only
            os.posix_fadvise(handle, start, count, os.POSIX_FADV_DONTNEED)


def write_all(disk: Disk, handle: int, data: bytes, at: int) -> None:
    """Write every byte, from byte `at` of the file on, however many calls that takes."""
    done = disk.write(handle, data, at)
    while done < len(data):
        done += disk.write(handle, data[done:], at + done)


def read_at(handle: int, count: int, at: int) -> bytes:
    """Read without moving what other threads read from. Windows can only do the one after the other."""
    if hasattr(os, "pread"):
        return os.pread(handle, count, at)
    os.lseek(handle, at, os.SEEK_SET)
    return os.read(handle, count)


def private_folder(folder: Path) -> None:
    """Make the folder if need be, readable by its owner alone."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    if os.name == "posix" and folder.stat().st_mode & 0o077:
        with contextlib.suppress(OSError):  # a folder of somebody else's stays as it is
            folder.chmod(0o700)


def open_private(path: Path, flags: int) -> int:
    """A low-level handle; a new file is readable by its owner alone."""
    return os.open(path, flags | getattr(os, "O_BINARY", 0), 0o600)


def sync_folder(folder: Path) -> None:
    """Make a rename or a new name in the folder last. Windows has no such call and needs none."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def write_beside(
    path: Path,
    pieces: Iterable[bytes],
    *,
    disk: Disk,
    previous: Path | None = None,
    let_go: Callable[[], object] = bool,
) -> None:
    """Write the file beside, sync it, then rename it over `path`; the old one becomes `previous`.

    `let_go` is called before the renaming: Windows replaces no file that somebody holds open.
    Raises OSError; `path` is then still the old one (or, at worst, still there under `previous`).
    """
    beside, handle = open_beside(path)
    length = 0
    try:
        try:
            for piece in pieces:
                write_all(disk, handle, piece, length)
                length += len(piece)
            disk.sync(handle)
        finally:
            os.close(handle)
        let_go()
        if previous is not None and path.exists():
            os.replace(path, previous)
        os.replace(beside, path)
    except BaseException:
        with contextlib.suppress(OSError):  # the first refusal is the one to tell
            beside.unlink(missing_ok=True)
        raise
    sync_folder(path.parent)


_BESIDE = re.compile(r".+\.[0-9a-f]{12}\.new")


def open_beside(path: Path) -> tuple[Path, int]:
    """A new file beside `path` with a name nobody has, never a stranger's nor through a link."""
    beside = path.with_name(f"{path.name}.{os.urandom(6).hex()}.new")
    flags = os.O_CREAT | os.O_EXCL | os.O_RDWR | getattr(os, "O_NOFOLLOW", 0)
    return beside, open_private(beside, flags)


def sweep_beside(folder: Path) -> None:
    """Take away what writings that were killed left beside; only their one writer may."""
    for path in folder.iterdir():
        if _BESIDE.fullmatch(path.name):
            with contextlib.suppress(OSError):  # it harms nothing
                path.unlink()


def must_be_new(file: Path, what: str) -> None:
    """Raises UserError when the file is there already, or its folder is not."""
    try:
        if file.exists():
            raise UserError(f"{file} is there already; give {what} a new name.")
        if not file.parent.is_dir():
            raise UserError(f"There is no folder {file.parent} to put {what} in.")
    except OSError as fault:
        raise os_error_message(fault, what, file) from fault


def os_error_message(fault: OSError, doing: str, path: Path) -> UserError:
    """The one sentence for an operating system's refusal while `doing` something to `path`."""
    if fault.errno in _LINUX_FULL:
        return UserError(f"The disk is full: {doing} did not happen; make room and do it again.")
    if fault.errno in _READ_ONLY:
        return UserError(
            f"{path} may not be written to: {doing} did not happen; check its permissions."
        )
    if fault.errno in (errno.ENOENT, errno.ENOTDIR):
        return UserError(f"{path} {_missing(path)}: {doing} did not happen.")
    return UserError(f"The disk refused ({fault.strerror or fault}): {doing} did not happen.")


def _missing(path: Path) -> str:
    if os.path.isfile(path):
        return "is a file, not a folder"
    return "holds no data of the counter" if os.path.isdir(path) else "is not there"


Told = Callable[[str], None]
"""Where plain sentences go that the person should read but that stop nothing."""


@contextmanager
def bulk() -> Iterator[None]:
    """Hold the garbage collector while many rows come in: parsing took four times as long with it."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
