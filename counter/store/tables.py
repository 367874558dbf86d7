"""The TinyDB tables: real ones, for queries, over rows that live in memory.

TinyDB as it comes copies the whole table at every write and writes the whole file. Here its storage
hands out the live rows, and a write through a table becomes one journal entry with only the rows it
touched. docs/data-files.md has the figures.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, MutableMapping
from typing import Any

from tinydb import TinyDB
from tinydb.storages import Storage
from tinydb.table import Document, Table

from counter.store.entry import Change, Row
from counter.store.records.check import KEY_FIELDS
from counter.values.errors import UserError

Rows = dict[str, dict[str, Row]]


class MemoryRows(Storage):
    """A TinyDB storage over the ledger's own rows; `note` is how a change gets in."""

    def __init__(
        self, rows: Rows, note: Callable[[list[Change]], object], number: Callable[[str], str]
    ) -> None:
        self.rows = rows
        self.note = note
        self.number = number

    def read(self) -> Rows:
        """The live rows; callers must not change them."""
        return self.rows

    def write(self, data: Mapping[str, Any]) -> None:
        """TinyDB's wholesale write, which only drop_table and drop_tables still use: refused."""
        raise UserError("A whole table cannot be dropped; take out the rows one wishes gone.")


class NotedTable(Table):
    """A TinyDB table with text keys whose writes are noted in the journal."""

    document_id_class = str  # type: ignore[assignment]  # TinyDB allows it, its types do not

    def __init__(self, storage: Storage, name: str) -> None:
        super().__init__(storage, name, cache_size=0)  # notes come in beside it: nothing may be kept

    def insert(self, document: Mapping[str, Any]) -> int:
        """Note a new row under its own number or id, or under the next one. Returns the key."""
        return super().insert(self._keyed(document))

    def insert_multiple(self, documents: Iterable[Mapping[str, Any]]) -> list[int]:
        """Note several new rows as one entry. Returns their keys."""
        return super().insert_multiple([self._keyed(each) for each in documents])

    def _keyed(self, document: Mapping[str, Any]) -> Document:
        if isinstance(document, Document):
            return document
        field = KEY_FIELDS.get(self.name, "")
        key = document.get(field) or self._get_next_id()
        row = {**document, field: key} if field else document
        return Document(row, key)  # type: ignore[arg-type]

    def _get_next_id(self) -> str:
        storage: Any = self._storage
        return str(storage.number(self.name))

    def _update_table(self, updater: Callable[[Any], None]) -> None:
        storage: Any = self._storage
        draft = _Draft(storage.rows.get(self.name, {}))
        updater(draft)
        changes = draft.changes(self.name)
        if changes:
            storage.note(changes)


class NotedTables(TinyDB):
    """A TinyDB whose tables are `NotedTable`s."""

    table_class = NotedTable  # type: ignore[assignment]  # it is made with the storage and name


class _Draft(MutableMapping[str, Row]):
    """A table as a TinyDB updater sees it: rows are copied as they are handed out."""

    def __init__(self, rows: dict[str, Row]) -> None:
        self._rows = rows
        self._new: dict[str, Row | None] = {}

    def changes(self, table: str) -> list[Change]:
        """The rows that came out different."""
        return [Change(table, key, row) for key, row in self._new.items() if row != self._rows.get(key)]

    def __getitem__(self, key: str) -> Row:
        if key in self._new:
            row = self._new[key]
            if row is None:
                raise KeyError(key)
            return row
        self._new[key] = copied = copy_row(self._rows[key])
        return copied

    def __setitem__(self, key: str, row: Row) -> None:
        self._new[key] = row

    def __delitem__(self, key: str) -> None:
        if key not in self:
            raise KeyError(key)
        self._new[key] = None

    def __iter__(self) -> Iterator[str]:
        for key in self._rows:
            if self._new.get(key, ...) is not None:
                yield key
        yield from (key for key, row in self._new.items() if row is not None and key not in self._rows)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def __contains__(self, key: object) -> bool:
        if key in self._new:
            return self._new[key] is not None
        return key in self._rows


def copy_row(row: Mapping[str, Any]) -> Row:
    """A copy that shares nothing changeable with the row: plain JSON values only."""
    return {key: _copy(value) for key, value in row.items()}


def _copy(value: Any) -> Any:
    if isinstance(value, dict):
        return copy_row(value)
    if isinstance(value, list):
        return [_copy(each) for each in value]
    return value
