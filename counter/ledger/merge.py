"""Bringing in what was noted on another laptop.

Entries come in whole, in the other journal's order, each once (by its id). Where both laptops changed
the same row without knowing of each other, ours stays in the table and theirs is held beside it in
`conflicts`, to be settled by a person. Who knew of what is read from the two journals, not the clocks.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from counter.ledger.bulk import bulk
from counter.ledger.entry import Change, Entry, entry_to_data, seal
from counter.ledger.erase import Erasures, Target, rewrite, scrubbed
from counter.ledger.files import Disk, why_not
from counter.ledger.journal import Journal
from counter.ledger.ledger import Ledger
from counter.ledger.state import OWN, conflict_key
from counter.values.trouble import Trouble


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


def merge(ledger: Ledger, folder: Path) -> Merged:
    """Bring in the entries of another laptop's data folder; that folder is only read.

    Merging again brings nothing. Raises Trouble; then nothing came in.
    """
    if ledger.read_only:
        raise Trouble(f"{ledger.why_read_only} Nothing was merged.")
    if folder.resolve() == ledger.folder.resolve():
        raise Trouble("That is this data folder itself; name the other laptop's.")
    told: list[str] = []
    try:
        journal = Journal(folder, writable=False, told=told.append, disk=Disk())
    except OSError as fault:
        raise why_not(fault, "the merge", folder) from fault
    try:
        with bulk():
            ledger.refresh()
            return _merge(ledger, journal, told)
    finally:
        journal.close()


def settle(ledger: Ledger, conflict: str, row: Mapping[str, Any] | None, verb: str) -> Entry:
    """Close a conflict (its key in `conflicts`) by saying which row holds; None takes it out.

    Raises Trouble when there is no such conflict or the row is not right.
    """
    open_one = ledger.row("conflicts", conflict)
    if open_one is None:
        raise Trouble(f"There is no open conflict {conflict}.")
    return ledger.note(
        verb,
        [Change(open_one["table"], open_one["key"], row), Change("conflicts", conflict, None)],
    )


def _merge(ledger: Ledger, journal: Journal, told: list[str]) -> Merged:
    theirs = {line.entry.id for line in journal.lines() if line.entry is not None}
    ours, changed_here, erased = _ours(ledger, theirs)
    lines, conflicts, erasures = list[bytes](), list[Conflict](), list[Target]()
    for line in journal.lines():
        if line.entry is None:
            told.append(
                f"A damaged line in {journal.path} (byte {line.start}) could not be brought in."
            )
        elif line.entry.id not in ours:
            entry = _held_back(ledger, line.entry, changed_here, conflicts)
            erasures.extend(entry.erases)
            lines.append(seal(entry_to_data(scrubbed(entry, erased) or entry)))
    if lines:
        ledger.take_in(lines)
    if erasures:
        rewrite(ledger, erasures, [])
    return Merged(len(lines), len(theirs) - len(lines), tuple(conflicts), tuple(told))


def _ours(ledger: Ledger, theirs: set[str]) -> tuple[set[str], set[tuple[str, str]], Erasures]:
    """The ids we have, the rows changed here that they do not know of, and what was erased here."""
    ours, changed_here, erased = set[str](), set[tuple[str, str]](), Erasures()
    for entry in ledger.entries():
        ours.add(entry.id)
        erased.update({(table, key): names for table, key, names in entry.erases})
        if entry.id not in theirs:
            changed_here.update((change.table, change.key) for change in entry.changes)
    return ours, changed_here, erased


def _held_back(
    ledger: Ledger, entry: Entry, changed_here: set[tuple[str, str]], conflicts: list[Conflict]
) -> Entry:
    """The entry with the changes marked that must wait for a person."""
    held = set(entry.held)
    for place, change in enumerate(entry.changes):
        if change.table in OWN:
            held.add(place)
        elif (change.table, change.key) in changed_here and not entry.erases:
            ours = ledger.state.row(change.table, change.key)
            if ours == change.row and change.table != "items":  # a piece may be sold twice alike
                continue
            held.add(place)
            conflicts.append(
                Conflict(change.table, change.key, ours, change.row, entry.laptop, entry.id)
            )
    waiting = {conflict_key(entry.changes[place].table, entry.changes[place].key) for place in held}
    for place, change in enumerate(entry.changes):  # what waits cannot be settled by the same entry
        if change.table == "conflicts" and change.key in waiting:
            held.add(place)
    return replace(entry, held=tuple(sorted(held)))
