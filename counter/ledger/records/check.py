"""The door to the tables: every row of every change is looked at here, and nowhere else."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from counter.ledger.entry import Change
from counter.ledger.records import rules
from counter.ledger.records.bath import BATH
from counter.ledger.records.item import check_item
from counter.ledger.records.person import PERSON
from counter.ledger.records.purchase import PURCHASE, whole_purchase
from counter.ledger.records.sale import QUOTE, SALE, whole_sale
from counter.ledger.records.shop import CASH
from counter.values.trouble import Trouble

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
    "settings": ("setting", "", rules.anything),
    "drafts": ("draft", "", rules.anything),
    "conflicts": ("conflict", "id", rules.anything),
}
TABLES = tuple(_TABLES)
KEY_FIELDS = {table: key_field for table, (_, key_field, _) in _TABLES.items()}
"""The field of a table's rows that repeats the key; "" where rows have none."""


def check_change(change: Change) -> None:
    """Raises Trouble, naming the record and the field, when the change may not enter the tables."""
    if change.table not in _TABLES:
        raise Trouble(f"There is no table {change.table!r}; there are {', '.join(TABLES)}.")
    what, key_field, check = _TABLES[change.table]
    wrong_key = rules.name(change.key)
    if wrong_key:
        raise Trouble(f"The number of a {what} {wrong_key}.")
    if change.row is None:
        return
    if not isinstance(change.row, Mapping) or not set(map(type, change.row)) <= {str}:
        raise Trouble(f"The {what} {change.key} is not a row of named fields.")
    wrong = check(change.row)
    if not wrong and key_field and change.row.get(key_field) != change.key:
        wrong = f"{key_field} must be its key, {change.key}"
    if wrong:
        raise Trouble(f"The {what} {change.key} was not noted: {wrong}.")
