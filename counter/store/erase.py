"""Erasing what a person asks to be forgotten: the one time the journal is written anew.

Named fields leave every version of a row: the affected lines are sealed again without them, every other
line is copied byte for byte, and a last entry says what was erased, so that a merge carries the erasure
to the other laptop. Snapshots go first. Whether the law allows it is for the caller to decide.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from counter.store.entry import Change, Entry, Row, entry_to_data, seal
from counter.store.files import bulk, os_error_message
from counter.store.journal import HEAD
from counter.store.ledger import Ledger
from counter.store.records.check import check_entry
from counter.store.snapshot import NAME, PREVIOUS
from counter.store.state import OWN
from counter.values.errors import UserError

WHOLE = ("*",)
"""As the fields of an erasure: the whole row goes."""

Target = tuple[str, str, tuple[str, ...]]
"""Table, key, and the names of the fields that go."""


class Erasures:
    """Every erasure of a journal: what goes from an entry that did not know of it yet.

    An entry that knew is left alone: a person who was forgotten may come back and be noted anew.
    """

    def __init__(self, entries: Iterator[Entry] | Sequence[Entry] = ()) -> None:
        self._of: dict[tuple[str, str], list[tuple[Entry, tuple[str, ...]]]] = {}
        for entry in entries:
            self.take(entry)

    def take(self, entry: Entry) -> None:
        """One more entry, which may erase."""
        for table, key, names in entry.erases:
            self._of.setdefault((table, key), []).append((entry, names))

    def __bool__(self) -> bool:
        return bool(self._of)

    def fields(self, entry: Entry, table: str, key: str) -> tuple[str, ...]:
        """The fields of a row that the entry may no longer say."""
        some = [names for by, names in self._of.get((table, key), ()) if not _knew(entry, by)]
        return (
            WHOLE if WHOLE in some else tuple(dict.fromkeys(name for names in some for name in names))
        )

    def names(self, table: str, key: str) -> tuple[str, ...]:
        """The fields of a row that ever were erased."""
        return tuple(
            dict.fromkeys(name for _, names in self._of.get((table, key), ()) for name in names)
        )

    def scrubbed(self, entry: Entry) -> Entry | None:
        """The entry without what was erased; None when it says nothing of that."""
        if not self._of:
            return None
        changes = tuple([self._less(entry, change) for change in entry.changes])
        return None if changes == entry.changes else entry._replace(changes=changes)

    def _less(self, entry: Entry, change: Change) -> Change:
        if change.row is None:
            return change
        if change.table == "conflicts":  # written out whole when rows were carried over
            about = (str(change.row.get("table")), str(change.row.get("key")))
            return change._replace(row=None) if self.fields(entry, *about) else change
        names = self.fields(entry, change.table, change.key)
        return change._replace(row=without(dict(change.row), names)) if names else change


def _knew(entry: Entry, by: Entry) -> bool:
    if entry.id == by.id:
        return True
    return by.seq < entry.seq if by.laptop == entry.laptop else by.seq <= entry.knows.get(by.laptop, 0)


@dataclass(frozen=True, slots=True)
class Erased:
    """The entry that says so, how many earlier lines lost something, and where copies may remain."""

    entry: Entry
    lines: int
    remains: tuple[str, ...]


def erase(
    ledger: Ledger,
    targets: Sequence[Target],
    verb: str = "details erased",
    *,
    earlier: Sequence[Target] = (),
) -> Erased:
    """Erase the named fields for good; of `earlier` only what they were before, not what they are.

    Every draft but those standing goes too. Raises UserError; then nothing changed.
    """
    if ledger.read_only:
        raise UserError(f"{ledger.why_read_only} Nothing was erased.")
    ledger.refresh()
    at = ledger.clock().date().isoformat()
    changes = [
        Change(table, key, _marked(table, without(row, names), at))
        for table, key, names in targets
        if (row := ledger.row(table, key)) is not None
    ]
    changes += [
        Change(table, key, row)
        for table, key, _ in earlier
        if (row := ledger.row(table, key)) is not None
    ]
    if not changes:
        raise UserError("There is nothing of that kind to erase.")
    entry = ledger.next_entry(verb, changes, erases=(*targets, *earlier))
    check_entry(entry)
    lines = rewrite(ledger, [entry])
    return Erased(entry, lines, _remains(ledger))


def rewrite(ledger: Ledger, more: Sequence[Entry]) -> int:
    """Write the journal anew with `more`, less all that they and it erase; returns lines changed.

    Entries and erasure come to the disk as one: whatever stops this, both are there or neither.
    """
    counted = [0]
    try:
        for name in (NAME, PREVIOUS):
            (ledger.folder / name).unlink(missing_ok=True)
        with bulk():
            erased = Erasures(ledger.entries())
            for entry in more:
                erased.take(entry)
            ledger.journal.rewrite(_lines(ledger, erased, more, counted))
    except OSError as fault:
        raise os_error_message(fault, "the erasure", ledger.folder) from fault
    ledger.reload()
    for entry in more:
        ledger.tell(entry)
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


def versions(ledger: Ledger) -> Iterator[Change]:
    """Every version of every row that the journal still holds, those of conflicts written out too."""
    for entry in ledger.entries():
        for change in entry.changes:
            if change.row is None:
                continue
            yield change
            for each in _held_versions(change):
                yield Change(str(change.row.get("table")), str(change.row.get("key")), each)


def _held_versions(change: Change) -> Iterator[Mapping[str, object]]:
    found = (change.row or {}).get("versions") if change.table == "conflicts" else None
    for each in found if isinstance(found, list) else ():
        if isinstance(each, dict) and isinstance(each.get("row"), dict):
            yield each["row"]


def _lines(
    ledger: Ledger, erased: Erasures, more: Sequence[Entry], counted: list[int]
) -> Iterator[bytes]:
    yield HEAD
    for line in ledger.journal.lines():
        new = line.entry and _less_drafts(ledger, erased.scrubbed(line.entry) or line.entry)
        if line.entry is None or new is None or new is line.entry:
            yield ledger.journal.bytes_at(line.start, line.end)
        else:
            counted[0] += 1
            yield seal(entry_to_data(new))
    for entry in more:
        yield seal(entry_to_data(_less_drafts(ledger, erased.scrubbed(entry) or entry)))


def _less_drafts(ledger: Ledger, entry: Entry) -> Entry:
    """The entry without drafts, but for one that still stands: nobody needs what was begun and dropped."""
    if not any(change.table in OWN and change.row is not None for change in entry.changes):
        return entry
    changes = [
        change._replace(row=None)
        if change.table in OWN
        and (place in entry.held or change.row != ledger.row(change.table, change.key))
        else change
        for place, change in enumerate(entry.changes)
    ]
    return entry if tuple(changes) == entry.changes else entry._replace(changes=tuple(changes))


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
