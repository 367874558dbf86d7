"""The door to the tables: every row of every change is looked at here, and nowhere else."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from counter.store.entry import Change, Entry
from counter.store.records import rules
from counter.store.records.bath import BATH
from counter.store.records.item import check_item
from counter.store.records.person import PERSON
from counter.store.records.purchase import PURCHASE, whole_purchase
from counter.store.records.sale import QUOTE, SALE, whole_sale
from counter.store.records.shop import CASH
from counter.values.errors import UserError

_Check = Callable[[Mapping[str, Any]], str]


def _purchase(row: Mapping[str, Any]) -> str:
    wrong = PURCHASE.check(row)
    return wrong or (whole_purchase(PURCHASE.build(row)) if row.get("split") else "")


def _sale(row: Mapping[str, Any]) -> str:
    return SALE.check(row) or whole_sale(SALE.build(row))


_TABLES: dict[str, tuple[str, str, _Check]] = {
    "items": ("stock item", "number", check_item),
    "purchases": ("purchase", "id", _purchase),
    "sales": ("sale", "id", _sale),
    "quotes": ("quote", "id", QUOTE.check),
    "people": ("person", "id", PERSON.check),
    "cash": ("cash line", "id", CASH.check),
    "baths": ("bath", "id", BATH.check),
    "settings": ("setting", "", rules.anything_named),
    "drafts": ("draft", "", rules.anything_named),
    "conflicts": ("conflict", "id", rules.anything_named),
}
TABLES = tuple(_TABLES)
KEY_FIELDS = {table: key_field for table, (_, key_field, _) in _TABLES.items()}
"""The field of a table's rows that repeats the key; "" where rows have none."""


def check_change(change: Change) -> None:
    """Raises UserError, naming the record and the field, when the change may not enter the tables."""
    table, key, row = change
    if table not in _TABLES:
        raise UserError(f"There is no table {table!r}; there are {', '.join(TABLES)}.")
    what, key_field, check = _TABLES[table]
    wrong_key = rules.name(key)
    if wrong_key:
        raise UserError(f"The number of a {what} {wrong_key}.")
    if row is None:
        return
    if not rules.is_row(row):
        raise UserError(f"The {what} {key} is not a row of named fields.")
    wrong = check(row)
    if not wrong and key_field and row.get(key_field) != key:
        wrong = f"{key_field} must be its key, {key}"
    if wrong:
        raise UserError(f"The {what} {key} was not noted: {wrong}.")


def check_entry(entry: Entry) -> None:
    """Raises UserError when one of its changes may not enter the tables."""
    for change in entry.changes:
        check_change(change)
