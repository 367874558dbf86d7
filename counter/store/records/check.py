"""The door to the tables: every row of every change is looked at here, and nowhere else."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from counter.store.entry import Change, Entry
from counter.store.records.accounts import Fair, Filed, Outlay
from counter.store.records.bath import Bath
from counter.store.records.person import Person
from counter.store.records.purchase import Purchase
from counter.store.records.sale import Quote, Sale
from counter.store.records.shop import Cash
from counter.values import field_rules as rules
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.record import Record, why_wrong, write_row


class _Kind(NamedTuple):
    """What a row of a table is called, the field that repeats its key, and its record (None: free)."""

    what: str
    key_field: str
    record: type[Record] | None


_TABLES = {
    "items": _Kind("stock item", "number", Item),
    "purchases": _Kind("purchase", "id", Purchase),
    "sales": _Kind("sale", "id", Sale),
    "quotes": _Kind("quote", "id", Quote),
    "people": _Kind("person", "id", Person),
    "cash": _Kind("cash line", "id", Cash),
    "baths": _Kind("bath", "id", Bath),
    "costs": _Kind("cost", "id", Outlay),
    "fairs": _Kind("fair", "id", Fair),
    "returns": _Kind("return", "id", Filed),
    "settings": _Kind("setting", "", None),
    "drafts": _Kind("draft", "", None),
    "conflicts": _Kind("conflict", "id", None),
}
TABLES = tuple(_TABLES)
KEY_FIELDS = {table: kind.key_field for table, kind in _TABLES.items()}
"""The field of a table's rows that repeats the key; "" where rows have none."""
_TABLE_OF = {kind.record: table for table, kind in _TABLES.items() if kind.record}


def put(record: Record) -> Change:
    """The change that notes a record in its table, under its own number."""
    table = _TABLE_OF[type(record)]
    return Change(table, getattr(record, KEY_FIELDS[table]), write_row(record))


def check_change(change: Change) -> None:
    """Raises UserError, naming the record and the field, when the change may not enter the tables."""
    table, key, row = change
    if table not in _TABLES:
        raise UserError(f"There is no table {table!r}; there are {', '.join(TABLES)}.")
    kind = _TABLES[table]
    wrong_key = rules.name(key)
    if wrong_key:
        raise UserError(f"The number of a {kind.what} {wrong_key}.")
    if row is None:
        return
    if not isinstance(row, Mapping):
        raise UserError(f"The {kind.what} {key} is not a row of named fields.")
    wrong = _why_wrong(kind, key, row)
    if wrong:
        raise UserError(f"The {kind.what} {key} was not noted: {wrong}.")


def _why_wrong(kind: _Kind, key: str, row: Mapping[str, Any]) -> str:
    wrong = why_wrong(kind.record, row) if kind.record else rules.anything_named(row)
    if not wrong and kind.key_field and row.get(kind.key_field) != key:
        return f"{kind.key_field} must be its key, {key}"
    return wrong


def check_entry(entry: Entry) -> None:
    """Raises UserError when one of its changes may not enter the tables."""
    for change in entry.changes:
        check_change(change)
