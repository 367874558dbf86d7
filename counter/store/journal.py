"""The journal: one file, only ever added to, whose every line is a checksummed entry.

A line counts once it is whole and on the disk. What a crash left of a last line is set aside in a file
of its own; a damaged line among good ones stays where it is, is told, and hides no other.

While it is written to, some room of newlines stands ready behind the last line: a line written over it
need not wait until the disk has noted a new length too. Closing cuts the room off; after a crash the
next opening does.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from counter.store.entry import Entry, is_of_newer_kind, line_to_entry, seal, unseal
from counter.store.file_watch import FileWatch
from counter.store.files import (
    Disk,
    Told,
    open_private,
    os_error_message,
    private_folder,
    read_at,
    sync_folder,
    write_all,
    write_beside,
)
from counter.store.journal_end import end_of_lines
from counter.values.errors import UserError

HEAD = seal({"journal": 1})
NAME = "journal"
_BLOCK = 1 << 20  # bytes read at once
_ROOM = b"\n" * (1 << 18)
#: A longer line is put at the end without room: one of at most a page can only tear in two.
_SMALL = 4096


@dataclass(frozen=True, slots=True)
class JournalLine:
    """A line of the journal: its first byte, the byte after it, and its entry.

    `entry` is None when the line is damaged, or (then `newer`) an entry of a kind not known here.
    """

    start: int
    end: int
    entry: Entry | None
    newer: bool = False


class Journal:
    """The open journal. `size` is the length in bytes of its whole lines, `first` where they begin."""

    def __init__(self, folder: Path, *, writable: bool, told: Told, disk: Disk) -> None:
        """Open, and when writable make it if need be and set a torn last line aside. Raises OSError."""
        self.path = folder / NAME
        self.broken = ""
        self.newer = ""  # why a journal of a newer counter is only read
        self._disk = disk
        self._told = told
        self._writable = writable
        self.first = 0
        self.size = 0
        self._length = 0  # of the file, with the room
        self._handle = -1
        self._take_handle(open_private(self.path, os.O_RDWR | os.O_CREAT if writable else os.O_RDONLY))
        self._check_version()
        if self._writable:
            self._set_aside_torn()
            if self.size == 0:
                self.append(HEAD)
                sync_folder(folder)
        self._check_head()

    def append(self, blob: bytes, meanwhile: Callable[[], object] = bool) -> None:
        """Put whole lines on the disk; they count when this returns. Raises UserError: nothing counts.

        `meanwhile` is called while the disk is at it.
        """
        self._unchanged()
        syncing = True
        try:
            self._room_for(blob)
            syncing = False
            self._write(blob)
            meanwhile()
            if lost := self._there.lost():  # no harm is done: the line went into what was our own file
                self._follow(lost)
                self._write(blob)
            syncing = True
            self._disk.sync(self._handle)
        except BaseException as fault:
            self._take_back(retry=not syncing)
            if isinstance(fault, OSError):
                raise os_error_message(fault, "what you noted", self.path) from fault
            raise
        self.size += len(blob)
        self._length = max(self._length, self.size)

    def lines(self, start: int = 0) -> Iterator[JournalLine]:
        """The lines from byte `start` (the first of a line) to the last whole one."""
        at = max(start, self.first)
        rest = b""
        while at + len(rest) < self.size:
            block = self.bytes_at(at + len(rest), min(self.size, at + len(rest) + _BLOCK))
            if not block:
                return
            *whole, rest = (rest + block).split(b"\n")
            for raw in whole:
                end = at + len(raw) + 1
                entry = line_to_entry(raw)
                yield JournalLine(at, end, entry, entry is None and is_of_newer_kind(unseal(raw)))
                at = end

    def reread(self) -> bool:
        """See what another window has added; True when the file is another one and was opened anew."""
        mine = os.fstat(self._handle)
        anew = not self._writable and not os.path.samestat(os.stat(self.path), mine)
        if anew:
            fresh = open_private(self.path, os.O_RDONLY)
            os.close(self._handle)
            self._take_handle(fresh)
        self.size = max(self.size, self._whole())
        return anew

    def rewrite(self, lines: Iterable[bytes]) -> None:
        """Put other lines in the place of all; only erase.py does. Raises OSError: nothing changed."""
        self._unchanged()
        if lost := self._there.lost():
            self._follow(lost)
        try:
            write_beside(self.path, lines, disk=self._disk, let_go=self._let_go)
        finally:
            if self._handle < 0:
                self._take_handle(open_private(self.path, os.O_RDWR))

    def bytes_at(self, start: int, end: int) -> bytes:
        """The bytes from `start` to `end`, fewer when the file is shorter."""
        pieces = []
        while start < end:
            piece = read_at(self._handle, end - start, start)
            if not piece:
                break
            pieces.append(piece)
            start += len(piece)
        return b"".join(pieces)

    def close(self) -> None:
        """Close the file; one that was removed meanwhile is written anew first."""
        if self._handle < 0:
            return
        try:
            if self._writable and not self.broken:
                if not self.path.exists():
                    self._rescue()
                if os.fstat(self._handle).st_size == self._length:  # else another wrote: hands off
                    self._cut_room()
        finally:
            self._let_go()

    def torn(self) -> bytes:
        """What stands behind the last whole line, but for the room: a line that was never finished."""
        return self.bytes_at(self.size, os.fstat(self._handle).st_size).strip(b"\n")

    def _let_go(self) -> None:
        os.close(self._handle)
        self._handle = -1

    def _take_handle(self, handle: int) -> None:
        self._handle = handle
        self._there = FileWatch(handle, self.path)
        self._length = os.fstat(handle).st_size
        self.size = self._whole()

    def _whole(self) -> int:
        return end_of_lines(self.bytes_at, os.fstat(self._handle).st_size)

    def _room_for(self, blob: bytes) -> None:
        """See that the blob, if it is one small line, can be written over room. Raises OSError."""
        if len(blob) > _SMALL or blob.count(b"\n") > 1:
            self._cut_room()
        elif self.size + len(blob) >= self._length:  # one newline must stay: it tells torn from damaged
            try:
                write_all(self._disk, self._handle, _ROOM, self.size)
            except OSError:  # little space is left: the line may still fit
                os.ftruncate(self._handle, self.size)
                self._length = self.size
            else:
                self._disk.sync(self._handle)
                self._length = self.size + len(_ROOM)

    def _cut_room(self) -> None:
        if self._length > self.size:
            os.ftruncate(self._handle, self.size)
            self._length = self.size

    def _check_version(self) -> None:
        """Leave a journal of a newer form as it is: what of it can be read is only read."""
        head = self.bytes_at(0, _SMALL).partition(b"\n")[0]
        data = unseal(head)
        if data is not None and data.get("journal", 1) != 1:
            self._writable = False
            self.newer = (
                f"{self.path} was written by a newer counter; this one only reads it, as far as it can: "
                f"use that one to note."
            )
            self.first = len(head) + 1

    def _check_head(self) -> None:
        if self.newer:
            return
        head = self.bytes_at(0, len(HEAD))
        self.first = len(HEAD) if head == HEAD else 0
        if self.size and head != HEAD:
            self._told("The first line of the journal is damaged; the entries after it were read.")

    def _set_aside_torn(self) -> None:
        torn = self.torn()
        if not torn:
            self._cut_room()
            return
        place = self.path.parent / "aside"
        private_folder(place)
        name = place / f"torn-{self.size}"
        while name.exists():
            name = name.with_name(name.name + "x")
        write_beside(name, [torn], disk=self._disk)
        self._cut_room()
        self._disk.sync(self._handle)
        self._told(
            f"The last entry was never finished (the counter was stopped while noting); "
            f"its {len(torn)} bytes are kept in {name}."
        )

    def _write(self, blob: bytes) -> None:
        write_all(self._disk, self._handle, blob, self.size)
        self._disk.begin(self._handle, self.size, len(blob))

    def _unchanged(self) -> None:
        """Refuse to write where another program wrote. Raises UserError."""
        if self.broken:
            raise UserError(self.broken)
        if not self._there.is_long(self._length):
            self._follow(self._there.lost() or "changed by another program")

    def _follow(self, what: str) -> None:
        """Write a file that is gone anew; refuse when another stands in its place. Raises UserError."""
        if what == "gone":
            self._rescue()
            return
        rescued = self._copy(self.path.with_name("journal.rescued"))
        self.broken = (
            f"The journal was {what} while it was open: nothing more is noted; what was noted until "
            f"now is in {rescued}; close the counter and run: counter verify."
        )
        raise UserError(self.broken)

    def _rescue(self) -> None:
        """The file was removed while open: the open handle still holds every byte, so write it anew."""
        try:
            private_folder(self.path.parent)
            self._copy(self.path)
            fresh = open_private(self.path, os.O_RDWR)
        except OSError as fault:
            raise os_error_message(fault, "writing the removed journal anew", self.path) from fault
        os.close(self._handle)
        self._take_handle(fresh)
        self._told("The journal was removed while open; it was written anew, nothing is lost.")

    def _copy(self, path: Path) -> Path:
        write_beside(path, [self.bytes_at(0, self.size)], disk=self._disk)
        return path

    def _take_back(self, *, retry: bool) -> None:
        """Cut a half-written line off again; when that cannot be done, nothing more may be written.

        After a failed sync (`retry` False) nobody knows what is on the disk, so writing stops too.
        """
        try:
            os.ftruncate(self._handle, self.size)
            self._length = self.size
            os.fsync(self._handle)
        except OSError:
            retry = False
        if not retry:
            self.broken = (
                "The disk failed while noting: the last thing was not noted and nothing more can be; "
                "close the counter and open it again."
            )
