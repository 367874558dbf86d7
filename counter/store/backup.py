"""A backup is one ZIP file of the journal and what belongs to it; restoring is its reverse.

The snapshots stay behind: they are made anew. The journal's own checksums guard every line, and the
ZIP's guard every file.
"""

from __future__ import annotations

import contextlib
import json
import os
import shutil
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import IO
from zlib import error as ZlibError

from counter.store import device_id as laptops
from counter.store.erase import Erasures
from counter.store.files import (
    Disk,
    must_be_new,
    open_beside,
    os_error_message,
    private_folder,
    sync_folder,
    write_beside,
)
from counter.store.journal import NAME as JOURNAL
from counter.store.journal import Journal
from counter.store.lock import Holder, take_lock
from counter.store.progress import Progress, go_on, mind
from counter.store.verify import Report, VerifyFinding, verify
from counter.values.errors import UserError

_ABOUT = "about.json"


@dataclass(frozen=True, slots=True)
class BackedUp:
    """What went into a backup."""

    file: Path
    entries: int
    size: int


@dataclass(frozen=True, slots=True)
class Restored:
    """Where the backup is now, what reading it showed, and where the folder that was there went."""

    folder: Path
    report: Report
    aside: Path | None


def backup(folder: Path, file: Path, *, now: datetime, progress: Progress = go_on) -> BackedUp:
    """Write a backup of the data folder; may be done while a window writes. Raises UserError.

    `progress` counts the journal's bytes; stopping it raises Stopped, and no file is left.
    """
    must_be_new(file, "the backup")
    journal, beside = _journal(folder), None
    try:
        try:
            beside, handle = open_beside(file)
            with os.fdopen(handle, "w+b") as out:
                entries = _fill(out, folder, journal, now, progress)
                out.flush()
                os.fsync(out.fileno())
        finally:
            journal.close()
        _check(beside)
        os.replace(beside, file)
        sync_folder(file.parent)
    except OSError as fault:
        _unlink(beside)
        raise os_error_message(fault, "the backup", file) from fault
    except BaseException:
        _unlink(beside)
        raise
    return BackedUp(file, entries, file.stat().st_size)


def restore(
    file: Path,
    folder: Path,
    *,
    now: datetime,
    same_laptop: bool = False,
    set_aside: bool = False,
    progress: Progress = go_on,
) -> Restored:
    """Put a backup back into an empty folder, or after setting the present one aside when told to.

    The folder becomes a laptop of its own, with numbers of its own, unless `same_laptop` says that the
    old one is gone. Raises UserError; then the present folder is as it was. `progress` counts the bytes
    of the journal being read again before it takes the place.
    """
    _check(file)
    beside = folder.with_name(folder.name + ".restoring")
    if os.path.exists(beside):
        raise UserError(f"{beside} is left from a restore that stopped; look into it and take it away.")
    if _used(folder) and not set_aside:
        raise UserError(
            f"{folder} is not empty: say --set-aside to have it renamed and kept, or name another."
        )
    try:
        _refuse_if_written(folder, now)
        private_folder(beside)
        with zipfile.ZipFile(file) as archive:
            for name in _wanted(archive, same_laptop):
                place = beside / name
                private_folder(place.parent)
                write_beside(place, _pieces(archive, name), disk=Disk())
        report = _told_who_comes_back(verify(beside, progress), folder, beside)
        aside = _make_room(folder, now)
        try:
            os.replace(beside, folder)
        except OSError:
            if aside:
                os.replace(aside, folder)
            raise
        sync_folder(folder.parent)
    except OSError as fault:
        shutil.rmtree(beside, ignore_errors=True)
        raise os_error_message(fault, "the restore", folder) from fault
    except UserError:
        shutil.rmtree(beside, ignore_errors=True)
        raise
    return Restored(folder, report, aside)


def _told_who_comes_back(report: Report, folder: Path, beside: Path) -> Report:
    """The report, with a word on what was erased in the folder there and stands in the backup again."""
    if not (folder / JOURNAL).is_file():
        return report
    here, there = _journal(folder), _journal(beside)
    try:
        erased = Erasures([each.entry for each in here.lines() if each.entry and each.entry.erases])
        back = {
            (change.table, change.key)
            for line in there.lines()
            if line.entry is not None
            for change in line.entry.changes
            if change.row is not None and erased.fields(line.entry, change.table, change.key)
            if erased.scrubbed(line.entry) is not None
        }
    finally:
        here.close()
        there.close()
    words = [
        VerifyFinding(
            "to do", f"{key} in {table} was erased on request, and comes back: erase it again."
        )
        for table, key in sorted(back)
    ]
    return replace(report, findings=(*report.findings, *words))


def _journal(folder: Path) -> Journal:
    try:
        return Journal(folder, writable=False, told=lambda words: None, disk=Disk())
    except OSError as fault:
        raise os_error_message(fault, "the backup", folder) from fault


def _unlink(path: Path | None) -> None:
    if path is None:
        return
    with contextlib.suppress(OSError):  # the first refusal is the one to tell
        path.unlink()


def _fill(out: IO[bytes], folder: Path, journal: Journal, now: datetime, progress: Progress) -> int:
    entries = sum(1 for line in journal.lines() if line.entry is not None)
    about = {"counter backup": 1, "made": now.isoformat(timespec="seconds"), "entries": entries}
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(_ABOUT, json.dumps(about))
        with archive.open(JOURNAL, "w", force_zip64=True) as member:
            for start in range(0, journal.size, 1 << 20):
                mind(progress, start, journal.size, "the backup")
                member.write(journal.bytes_at(start, min(journal.size, start + (1 << 20))))
        for path in (folder / laptops.NAME, *sorted((folder / "aside").glob("*"))):
            if path.is_file():
                archive.writestr(path.relative_to(folder).as_posix(), path.read_bytes())
    return entries


def _check(file: Path) -> None:
    """Raises UserError when the file is not a whole backup of ours."""
    try:
        with zipfile.ZipFile(file) as archive:
            about = json.loads(archive.read(_ABOUT))
            damaged = archive.testzip()
            if about.get("counter backup") != 1 or JOURNAL not in archive.namelist():
                raise UserError(f"{file} is not a backup of a counter.")
    except FileNotFoundError:
        raise UserError(f"There is no file {file}.") from None
    except (OSError, zipfile.BadZipFile, KeyError, ValueError, AttributeError, ZlibError, EOFError):
        raise UserError(f"{file} is not a backup, or is damaged; nothing was changed.") from None
    if damaged is not None:
        raise UserError(f"{file} is damaged ({damaged} in it); nothing was changed.")


def _wanted(archive: zipfile.ZipFile, same_laptop: bool) -> Iterator[str]:
    """Only names of ours: an archive cannot write anywhere else."""
    for name in archive.namelist():
        parts = name.split("/")
        aside = len(parts) == 2 and parts[0] == "aside" and parts[1] not in ("", ".", "..")
        if name == JOURNAL or (name == laptops.NAME and same_laptop) or (aside and "\\" not in name):
            yield name


def _pieces(archive: zipfile.ZipFile, name: str) -> Iterator[bytes]:
    with archive.open(name) as member:
        while piece := member.read(1 << 20):
            yield piece


def _used(folder: Path) -> bool:
    try:
        return os.path.exists(folder) and (not folder.is_dir() or any(folder.iterdir()))
    except OSError as fault:
        raise os_error_message(fault, "the restore", folder) from fault


def _refuse_if_written(folder: Path, now: datetime) -> None:
    if not folder.is_dir() or not (folder / JOURNAL).exists():
        return
    lock = take_lock(folder, now.isoformat(timespec="seconds"))
    if isinstance(lock, Holder):
        raise UserError(f"{lock.words()} is writing in {folder}; close that window first.")
    lock.release()


def _make_room(folder: Path, now: datetime) -> Path | None:
    if not _used(folder):
        if folder.exists():
            folder.rmdir()
        return None
    aside = folder.with_name(f"{folder.name}.aside-{now:%Y%m%d-%H%M%S}")
    while aside.exists():
        aside = aside.with_name(aside.name + "x")
    os.replace(folder, aside)
    return aside
