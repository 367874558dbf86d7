"""Erasing what a person asks to be forgotten: the one time the journal is written anew.

Named fields leave every version of a row: the affected lines are sealed again without them, every other
line is copied byte for byte, and a last entry says what was erased, so that a merge carries the erasure
to the other laptop. Snapshots go first. Whether the law allows it is for the caller to decide.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from counter.store.entry import Change, Entry, Row, entry_to_data, seal
from counter.store.files import os_error_message
from counter.store.journal import HEAD
from counter.store.ledger import Ledger
from counter.store.snapshot import NAME, PREVIOUS
from counter.values.errors import UserError

WHOLE = ("*",)
"""As the fields of an erasure: the whole row goes."""

Target = tuple[str, str, tuple[str, ...]]
"""Table, key, and the names of the fields that go."""


Erasures = dict[tuple[str, str], tuple[str, ...]]
"""The fields that go, by table and key."""


@dataclass(frozen=True, slots=True)
class Erased:
    """The entry that says so, how many earlier lines lost something, and where copies may remain."""

    entry: Entry
    lines: int
    remains: tuple[str, ...]


def erase(ledger: Ledger, targets: Sequence[Target], verb: str = "details erased") -> Erased:
    """Erase the named fields for good. Raises UserError; then nothing changed."""
    if ledger.read_only:
        raise UserError(f"{ledger.why_read_only} Nothing was erased.")
    ledger.refresh()
    at = ledger.clock().date().isoformat()
    changes = [
        Change(table, key, _marked(table, without(row, names), at))
        for table, key, names in targets
        if (row := ledger.row(table, key)) is not None
    ]
    if not changes:
        raise UserError("There is nothing of that kind to erase.")
    entry = ledger.next_entry(verb, changes, erases=tuple(targets))
    lines = rewrite(ledger, targets, [ledger.seal(entry)])
    ledger.tell(entry)
    return Erased(entry, lines, _remains(ledger))


def rewrite(ledger: Ledger, targets: Sequence[Target], more: Sequence[bytes]) -> int:
    """Write the journal anew without those fields and with `more` lines; returns lines changed."""
    counted = [0]
    try:
        for name in (NAME, PREVIOUS):
            (ledger.folder / name).unlink(missing_ok=True)
        ledger.journal.rewrite(_lines(ledger, targets, more, counted))
    except OSError as fault:
        raise os_error_message(fault, "the erasure", ledger.folder) from fault
    ledger.reload()
    try:
        ledger.snapshot()
    except UserError as trouble:  # the erasure itself is done
        ledger.told.append(str(trouble))
    return counted[0]


def without(row: Row, names: Collection[str]) -> Row | None:
    """The row less the named fields; None when the whole row goes."""
    if tuple(names) == WHOLE:
        return None
    return {name: value for name, value in row.items() if name not in names}


def _lines(
    ledger: Ledger, targets: Sequence[Target], more: Sequence[bytes], counted: list[int]
) -> Iterator[bytes]:
    wanted: Erasures = {(table, key): names for table, key, names in targets}
    yield HEAD
    for line in ledger.journal.lines():
        entry = line.entry and scrubbed(line.entry, wanted)
        if entry is None:
            yield ledger.journal.bytes_at(line.start, line.end)
        else:
            counted[0] += 1
            yield seal(entry_to_data(entry))
    yield from more


def scrubbed(entry: Entry, wanted: Erasures) -> Entry | None:
    """The entry without the fields; None when it has none of them."""
    changes = []
    for change in entry.changes:
        names = wanted.get((change.table, change.key))
        if names is None or change.row is None:
            changes.append(change)
        else:
            changes.append(change._replace(row=without(dict(change.row), names)))
    return None if tuple(changes) == entry.changes else entry._replace(changes=tuple(changes))


def _marked(table: str, row: Row | None, at: str) -> Row | None:
    return row if row is None or table != "people" else {**row, "erased": at}


def _remains(ledger: Ledger) -> tuple[str, ...]:
    """Where a copy may still be: pieces set aside, damaged lines, backups made before."""
    remains = ["Backups made before this, and other laptops until the next merge, still hold it."]
    aside = sorted((ledger.folder / "aside").glob("*")) if (ledger.folder / "aside").is_dir() else []
    aside += sorted(ledger.folder.glob("journal.rescued*"))
    if aside:
        remains.append(f"Look into {', '.join(str(each) for each in aside)} as well.")
    if any(line.entry is None for line in ledger.journal.lines()):
        remains.append("The journal has a damaged line that could not be searched.")
    return tuple(remains)
