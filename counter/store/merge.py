"""Bringing in what was noted on another laptop.

Entries come in whole, in the other journal's order, each once (by its id). Where both laptops changed
the same row without knowing of each other, ours stays in the table and theirs is held beside it in
`conflicts`, to be settled by a person. Every entry says which others it knew of; clocks decide nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from counter.store.entry import Change, Entry, in_force
from counter.store.erase import Erasures, rewrite, without
from counter.store.files import Disk, bulk, os_error_message
from counter.store.journal import Journal
from counter.store.ledger import Ledger
from counter.store.progress import Progress, go_on, mind
from counter.store.state import OWN, conflict_key
from counter.values.errors import UserError

_TELL_EVERY = 500  # lines between two words on how far it is


@dataclass(frozen=True, slots=True)
class Conflict:
    """A row changed on both laptops: ours stands, theirs is held. Rows are None where taken out."""

    table: str
    key: str
    ours: Mapping[str, Any] | None
    theirs: Mapping[str, Any] | None
    laptop: str
    entry: str


@dataclass(frozen=True, slots=True)
class Merged:
    """What a merge brought: entries, those known already, conflicts, and damage met with, in words."""

    brought: int
    known: int
    conflicts: tuple[Conflict, ...]
    told: tuple[str, ...]


def merge(ledger: Ledger, folder: Path, progress: Progress = go_on) -> Merged:
    """Bring in the entries of another laptop's data folder; that folder is only read.

    Merging again brings nothing. Raises UserError; then nothing came in. `progress` counts the bytes
    of the other journal.
    """
    if ledger.read_only:
        raise UserError(f"{ledger.why_read_only} Nothing was merged.")
    told: list[str] = []
    try:
        if folder.resolve() == ledger.folder.resolve():
            raise UserError("That is this data folder itself; name the other laptop's.")
        journal = Journal(folder, writable=False, told=told.append, disk=Disk())
    except OSError as fault:
        raise os_error_message(fault, "the merge", folder) from fault
    try:
        if journal.newer:
            raise UserError(f"{journal.path} was written by a newer counter; use that one to merge.")
        with bulk():
            ledger.refresh()
            return _merge(ledger, journal, told, progress)
    finally:
        journal.close()


def settle(ledger: Ledger, conflict: str, row: Mapping[str, Any] | None, verb: str) -> Entry:
    """Close a conflict (its key in `conflicts`) by saying which row holds; None takes it out.

    Raises UserError when there is no such conflict or the row is not right.
    """
    open_one = ledger.row("conflicts", conflict)
    if open_one is None:
        raise UserError(f"There is no open conflict {conflict}.")
    return ledger.note(
        verb,
        [Change(open_one["table"], open_one["key"], row), Change("conflicts", conflict, None)],
    )


def _merge(ledger: Ledger, journal: Journal, told: list[str], progress: Progress) -> Merged:
    theirs = {line.entry.id for line in journal.lines() if line.entry is not None}
    ours = _Ours(ledger, theirs)
    entries, conflicts = list[Entry](), list[Conflict]()
    for number, line in enumerate(journal.lines()):
        if number % _TELL_EVERY == 0:
            mind(progress, line.start, journal.size, "the merge")
        if line.newer:
            raise UserError(
                f"{journal.path} has entries that only a newer counter knows; use that one to merge."
            )
        if line.entry is None:
            told.append(
                f"A damaged line in {journal.path} (byte {line.start}) could not be brought in."
            )
        elif line.entry.id not in ours.ids:
            entry = _scrubbed(ledger, line.entry, ours)
            entries.append(_held_back(ledger, entry, ours, conflicts))
    if any(entry.erases for entry in entries):
        rewrite(ledger, entries)
    elif entries:
        ledger.append_entries(entries)
    return Merged(len(entries), len(theirs) - len(entries), tuple(conflicts), tuple(told))


class _Ours:
    """What this ledger has: the ids, what was erased, and who changed each row last."""

    def __init__(self, ledger: Ledger, theirs: set[str]) -> None:
        self.ids: set[str] = set()
        self.erased = Erasures()
        self._theirs = theirs
        self._last: dict[tuple[str, str], dict[str, tuple[int, str]]] = {}
        for entry in ledger.entries():
            self.ids.add(entry.id)
            self.erased.take(entry)
            for change in (
                in_force(entry) if not entry.erases else ()
            ):  # to take fields out is no version
                by = self._last.setdefault((change.table, change.key), {})
                by[entry.laptop] = (entry.seq, entry.id)

    def changed_unknown_to(self, entry: Entry, change: Change) -> bool:
        """Whether the row was changed here by an entry that the other one had not seen."""
        by = self._last.get((change.table, change.key), {})
        return any(not self._knows(entry, laptop, *last) for laptop, last in by.items())

    def _knows(self, entry: Entry, laptop: str, seq: int, name: str) -> bool:
        if name not in self._theirs:
            return False
        return seq < entry.seq if laptop == entry.laptop else seq <= entry.knows.get(laptop, 0)


def _scrubbed(ledger: Ledger, entry: Entry, ours: _Ours) -> Entry:
    """The entry as it may come in: without what was erased, nor, once anything was, a draft.

    An erasure takes its fields out of the row as it stands here, when that is newer than the one there.
    """
    known = ours.erased.scrubbed(entry) or entry
    changes = []
    for change in known.changes:
        row, here = change.row, ledger.state.row(change.table, change.key)
        if change.table in OWN:
            row = None if ours.erased else row
        elif row is not None and here is not None:
            if entry.erases and ours.changed_unknown_to(entry, change):
                gone = Erasures([entry]).names(change.table, change.key)
                row = without({**here, **_mark(row)}, gone)
            elif change.table == "people" and ours.erased.fields(entry, change.table, change.key):
                row = {**row, **_mark(here)}
        changes.append(change._replace(row=row))
    return known._replace(changes=tuple(changes))


def _mark(row: Mapping[str, Any]) -> dict[str, Any]:
    return {"erased": row["erased"]} if "erased" in row else {}


def _held_back(ledger: Ledger, entry: Entry, ours: _Ours, conflicts: list[Conflict]) -> Entry:
    """The entry with the changes marked that must wait for a person."""
    held = set(entry.held)
    for place, change in enumerate(entry.changes):
        if change.table in OWN:
            held.add(place)
        elif not entry.erases and ours.changed_unknown_to(entry, change):
            row = ledger.state.row(change.table, change.key)
            if row == change.row and change.table != "items":  # a piece may be sold twice alike
                continue
            held.add(place)
            conflicts.append(
                Conflict(change.table, change.key, row, change.row, entry.laptop, entry.id)
            )
    waiting = {conflict_key(entry.changes[place].table, entry.changes[place].key) for place in held}
    for place, change in enumerate(entry.changes):  # what waits cannot be settled by the same entry
        if change.table == "conflicts" and change.key in waiting:
            held.add(place)
    return entry._replace(held=tuple(sorted(held)))
