"""The ledger: what the dealer owns and did. A change is a journal entry, on disk before it counts.

The journal is the truth; the tables in memory are what it adds up to; snapshots make opening quick.
"""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from pathlib import Path
from threading import RLock
from typing import Any

from tinydb.table import Table

from counter.store import device_id as laptops
from counter.store.account_tables import AccountTables
from counter.store.books import (
    BathTable,
    CashTable,
    HeldTable,
    ItemTable,
    PeopleTable,
    PurchaseTable,
    QuoteTable,
    SaleTable,
)
from counter.store.entry import Change, Entry, Row, as_written, entry_to_data, in_force, seal
from counter.store.files import Disk, bulk, os_error_message, private_folder, sweep_beside
from counter.store.journal import Journal
from counter.store.lock import Holder, Lock, take_lock
from counter.store.record_tables import RecordTable
from counter.store.records.check import check_entry
from counter.store.snapshot import NAME, PREVIOUS, read_snapshot, write_snapshot
from counter.store.state import State
from counter.store.tables import MemoryRows, NotedTables, copy_row
from counter.values.errors import UserError

Clock = Callable[[], datetime]
Befores = tuple[Row | None, ...]
"""The rows an entry's changes replaced, in their order."""

_CUT_SHORT = (
    "The end of the journal is missing, but the snapshot has its rows: "
    "run counter restore --from-snapshot."
)
_NEWER_KIND = (
    "The journal has entries of a kind that only a newer counter knows; this one only reads the others: "
    "use that one to note."
)
_WORTH_A_SNAPSHOT = 500  # entries replayed in some 5 ms
_SECONDS = len("2026-05-01T10:00:00")  # of a time without its zone


class Ledger:
    """The open ledger of a data folder. Made by `Ledger.open`.

    `read_only` says whether this window may note; `why_read_only` says why not, in words. `told` are
    the plain sentences the opening (or a note) has for the person.
    """

    def __init__(self, folder: Path, *, clock: Clock, disk: Disk) -> None:
        self.folder = folder
        self.clock = clock
        self.disk = disk
        self.state = State()
        self.told: list[str] = []
        self.read_only = False
        self.why_read_only = ""
        self.cut_short = False  # the snapshot holds more than the journal: see recover.py
        self.holder: Holder | None = None
        self.laptop = ""
        self.recent: deque[tuple[Entry, Befores]] = deque(maxlen=100)
        self._journal: Journal | None = None
        self._lock: Lock | None = None
        self._watchers: list[Callable[[Entry], None]] = []
        self._busy = RLock()
        self._opening = os.urandom(4).hex()  # makes ids unique even when a folder was copied
        self._snapshot_at = 0
        self._store = MemoryRows(self.state.rows, self._note_table, self.next_number)
        self._tables = NotedTables(storage=lambda: self._store)
        self.items = ItemTable(self._store, self._busy)
        self.people = PeopleTable(self._store, self._busy)
        self.sales = SaleTable(self._store, self._busy)
        self.purchases = PurchaseTable(self._store, self._busy, self.people, self.items)
        self.quotes = QuoteTable(self._store, self._busy)
        self.cash = CashTable(self._store, self._busy)
        self.baths = BathTable(self._store, self._busy)
        self.accounts = AccountTables.over(self._store, self._busy)
        self.conflicts = HeldTable(self._store, self._busy)
        self.state.follow = self._follow

    @classmethod
    def open(
        cls,
        folder: Path,
        *,
        clock: Clock,
        laptop: str | None = None,
        read_only: bool = False,
        disk: Disk | None = None,
    ) -> Ledger:
        """Open (and on first use make) the ledger in `folder`; may run in a thread.

        When another window writes, or the folder may not be written to, the ledger opens read-only and
        says why. Raises UserError when nothing can be read at all.
        """
        ledger = cls(folder, clock=clock, disk=disk or Disk())
        if read_only:
            ledger._only_read("This window was opened for reading only.")
        try:
            ledger._open(laptop)
        except OSError as fault:
            ledger.close()
            raise os_error_message(fault, "opening your data folder", folder) from fault
        except BaseException:
            ledger.close()
            raise
        return ledger

    def note(self, verb: str, changes: Sequence[Change], *, reverses: str | None = None) -> Entry:
        """Note one entry; it is on the disk when this returns.

        Raises UserError (one sentence) when a row is not right or the disk refuses; then nothing changed.
        """
        return self._note([(verb, changes)], reverses=reverses)[0]

    def note_many(self, notes: Iterable[tuple[str, Sequence[Change]]]) -> list[Entry]:
        """Note many entries, each a verb and its changes, with one wait for the disk."""
        return self._note(list(notes))

    def table(self, name: str) -> Table:
        """The TinyDB table of that name, for queries; what is written through it is noted too."""
        return self._tables.table(name)

    def row(self, table: str, key: str) -> Row | None:
        """A copy of one row, found at once; None when there is none."""
        row = self.state.row(table, key)
        return None if row is None else copy_row(row)

    def rows(self, table: str) -> list[Mapping[str, Any]]:
        """All rows of a table in the order they first came. The live rows: read, do not change."""
        return list(self.state.rows.get(table, {}).values())

    def _record_tables(self) -> tuple[RecordTable[Any], ...]:
        deals = (self.sales, self.purchases, self.quotes, self.people)
        return (*deals, *self.accounts, self.items, self.cash, self.baths, self.conflicts)

    def _follow(self, table: str, key: str, before: Row | None, after: Row | None) -> None:
        """A row was replaced: the tables whose indexes are made keep them right."""
        for each in self._record_tables():
            each.follow(table, key, before, after)

    def watch(self, callback: Callable[[Entry], None]) -> None:
        """Have `callback` called with every entry from now on, after it counts."""
        self._watchers.append(callback)

    def next_number(self, table: str) -> str:
        """This laptop's next number for a table ("WK-12", "WK-P3"); none is given twice."""
        with self._busy:
            return self.state.next_number(laptops.prefix(self.laptop, table))

    def entries(self) -> Iterator[Entry]:
        """Every sound entry from the first on, read from the journal itself."""
        return (line.entry for line in self.journal.lines() if line.entry is not None)

    def refresh(self) -> int:
        """Take in what another window noted since; returns how many entries."""
        with self._busy:
            try:
                anew = self.journal.reread()
            except OSError as fault:
                raise os_error_message(fault, "looking for new entries", self.journal.path) from fault
            if anew:
                self.reload()
            return self._catch_up()

    def reload(self) -> None:
        """Add the whole journal up again, after it was written anew."""
        with self._busy:
            self.recent.clear()
            self._snapshot_at = 0
            self._take_state(State())
            watchers, self._watchers = self._watchers, []
            try:
                self._catch_up()
            finally:
                self._watchers = watchers

    def snapshot(self) -> None:
        """Write a snapshot, so that the next opening is quick. May run in a thread. Raises UserError."""
        with self._busy:
            self._catch_up()
            now = State(
                {name: dict(rows) for name, rows in self.state.rows.items()},
                dict(self.state.numbers),
                dict(self.state.seqs),
                self.state.last_at,
                self.state.entries,
                self.state.covers,
            )
        try:
            write_snapshot(self.folder, now, self.journal, disk=self.disk)
        except OSError as fault:
            raise os_error_message(fault, "writing a snapshot", self.folder) from fault
        self._snapshot_at = now.entries

    def close(self) -> None:
        """Snapshot when worth it and let the next writer in. What was noted is on disk already.

        Closing again does nothing; noting afterwards raises UserError.
        """
        try:
            if self._journal is not None and not self.read_only:
                if self.state.entries - self._snapshot_at >= _WORTH_A_SNAPSHOT:
                    self.snapshot()
                self._journal.close()
        except UserError as trouble:  # only the quick opening is lost
            self.told.append(str(trouble))
        finally:
            if self._journal is not None:
                self._journal.close()
            self._journal = None
            if self._lock is not None:
                self._lock.release()

    @property
    def journal(self) -> Journal:
        """The open journal."""
        if self._journal is None:
            raise UserError("The data is not open: open the counter again.")
        return self._journal

    def append_entries(self, entries: Sequence[Entry]) -> list[Entry]:
        """Put entries on the disk and into the tables, and tell the watchers.

        Their rows are not looked at again: `note` does so, or the laptop did that they come from.
        """
        with self._busy:
            self._may_note()
            lines, kept = [seal(entry_to_data(entry)) for entry in entries], list[Entry]()
            # memory takes what is read back from the very bytes: it cannot differ from the disk
            self.journal.append(
                b"".join(lines), meanwhile=lambda: kept.extend(map(as_written, entries, lines))
            )
            for entry, line in zip(kept, lines, strict=True):
                befores = tuple([self.state.row(each.table, each.key) for each in entry.changes])
                self.recent.append((entry, befores))
                self.state.apply(entry, self.state.covers + len(line))
                self.tell(entry)
            return kept

    def write_again(self) -> None:
        """Go on in the journal that was put right while this ledger only read."""
        self.read_only, self.why_read_only, self.cut_short = False, "", False

    def seal(self, entry: Entry) -> bytes:
        """An entry as a line, after checking every row it would put into a table. Raises UserError."""
        check_entry(entry)
        return seal(entry_to_data(entry))

    def next_entry(self, verb: str, changes: Sequence[Change], *, ahead: int = 0, **more: Any) -> Entry:
        """The entry this laptop would note next, or `ahead` further on."""
        if not verb.strip():
            raise UserError("An entry needs a word for what was done.")
        seq = self.state.seqs.get(self.laptop, 0) + 1 + ahead
        at = self.clock().isoformat(timespec="seconds")
        name = f"{self.laptop}.{seq}.{self._opening}"
        knows = {laptop: seen for laptop, seen in self.state.seqs.items() if laptop != self.laptop}
        return Entry(name, self.laptop, seq, at, verb, tuple(changes), knows=knows, **more)

    def _note(
        self, notes: Sequence[tuple[str, Sequence[Change]]], reverses: str | None = None
    ) -> list[Entry]:
        with self._busy:
            self._may_note()
            self._catch_up()
            entries = [
                self.next_entry(verb, changes, ahead=ahead, reverses=reverses)
                for ahead, (verb, changes) in enumerate(notes)
            ]
            self._check_clock(entries)
            for entry in entries:
                check_entry(entry)
            return self.append_entries(entries)

    def _note_table(self, changes: list[Change]) -> None:
        self.note(f"{changes[0].table} changed", changes)

    def tell(self, entry: Entry) -> None:
        """Call the watchers with an entry that counts, less what a merge holds back."""
        shown = entry._replace(changes=in_force(entry), held=()) if entry.held else entry
        for callback in self._watchers:
            try:
                callback(shown)
            except Exception as fault:  # the entry counts already: a watcher's fault must not deny it
                self.told.append(
                    f"Noted, but the list did not follow ({fault}); open the counter again."
                )

    def _catch_up(self) -> int:
        """Apply whole lines the memory has not seen: another window's, or our own after a Ctrl-C."""
        if self.state.covers == self.journal.size:
            return 0
        count = 0
        self.state.covers = max(self.state.covers, self.journal.first)  # a new journal has its head
        for line in self.journal.lines(self.state.covers):
            if line.newer:
                self._only_read(_NEWER_KIND)
                self.state.covers = line.end
                continue
            if line.entry is None:
                self.told.append(
                    f"A line of the journal (at byte {line.start}) is damaged and was passed over; "
                    f"it is still there: run counter verify."
                )
                self.state.covers = line.end
                continue
            self.state.apply(line.entry, line.end)
            count += 1
            self.tell(line.entry)
        return count

    def _may_note(self) -> None:
        if self.read_only:
            raise UserError(f"{self.why_read_only} Nothing was noted.")

    def _check_clock(self, entries: Sequence[Entry]) -> None:
        """Order goes by sequence; a clock that went back is only told."""
        if not entries or not self.state.last_at:
            return
        at, last = entries[0].at, self.state.last_at
        if at >= last and at[_SECONDS:] == last[_SECONDS:]:  # in one zone, as nearly always
            return
        try:
            back = datetime.fromisoformat(at).timestamp() < datetime.fromisoformat(last).timestamp() - 1
        except (ValueError, OSError, OverflowError):
            return
        if back:
            self.told.append(
                f"The clock says {at}, before the last entry ({last}): "
                f"the order of entries is kept, but check the date."
            )

    def _only_read(self, why: str) -> None:
        self.read_only = True
        self.why_read_only = why

    def _open(self, laptop: str | None) -> None:
        if not self.read_only:
            self._become_writer()
        self._journal = Journal(
            self.folder, writable=not self.read_only, told=self.told.append, disk=self.disk
        )
        if self._journal.newer:
            self._only_read(self._journal.newer)
        self.laptop = laptops.laptop_of(self.folder, laptop, disk=self.disk, keep=not self.read_only)
        with bulk():
            self._load()

    def _become_writer(self) -> None:
        try:
            private_folder(self.folder)
            lock = take_lock(self.folder, self.clock().isoformat(timespec="seconds"))
        except OSError as fault:
            self._only_read(f"{os_error_message(fault, 'opening for writing', self.folder)}")
            return
        if isinstance(lock, Holder):
            self.holder = lock
            self._only_read(f"{lock.words()} is writing; this window only reads.")
        else:
            self._lock = lock
            sweep_beside(self.folder)

    def _take_state(self, state: State) -> None:
        self.state = state
        self._store.rows = state.rows
        state.follow = self._follow
        for table in self._record_tables():
            table.forget()

    def _load(self) -> None:
        for name in (NAME, PREVIOUS):
            path = self.folder / name
            if not path.exists():
                continue
            state = read_snapshot(path, self.journal)
            if isinstance(state, State):
                self._take_state(state)
                if state.covers > self.journal.size and self._lock is not None:
                    self.cut_short = True
                    self._only_read(_CUT_SHORT)
                break
            self.told.append(f"The {name} was passed over: {state}; the journal was read instead.")
        self._snapshot_at = self.state.entries
        self._catch_up()
