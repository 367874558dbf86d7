"""Rows that two laptops changed without knowing of each other: both versions in words, one holds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from counter.describe.description import short_line
from counter.describe.names import Names
from counter.store.entry import Entry
from counter.store.ledger import Ledger
from counter.store.merge import settle
from counter.store.records.conflict import HeldRow, HeldVersion
from counter.values.dates import day_words
from counter.values.errors import InputError
from counter.values.item import Item
from counter.values.money import pounds
from counter.values.record import read_record

HERE = "here"
Row = Mapping[str, Any] | None
_MONEY = frozenset({"asking", "cost"})  # an item's pence; elsewhere names end in _pence


@dataclass(frozen=True, slots=True)
class Side:
    """One version of a row (None: taken out): `name` chooses it, `told` says whose it is."""

    name: str
    told: str
    row: Row


@dataclass(frozen=True, slots=True)
class MergeConflict:
    """A row with more than one version. `differing` gives (field, a value for each side) in words.

    `sold` names the sales in which a piece stands, when it was sold on more than one laptop.
    """

    id: str
    table: str
    key: str
    sides: tuple[Side, ...]
    differing: tuple[tuple[str, tuple[str, ...]], ...]
    sold: tuple[str, ...] = ()

    def title(self, names: Names) -> str:
        """What it is about, in a line."""
        row = next((side.row for side in self.sides if side.row), None)
        if row and self.table == "items":
            return f"{self.key}  {short_line(read_record(Item, row), names)}"
        return f"{self.key}  in {self.table}"


def open_conflicts(ledger: Ledger) -> tuple[MergeConflict, ...]:
    """Everything that waits for a person's word."""
    return tuple(_both(ledger, each) for each in ledger.conflicts.records())


def settle_for(ledger: Ledger, conflict: str, side: str) -> Entry:
    """The side's version holds from now on. Raises InputError when there is no such conflict or side."""
    found = ledger.conflicts.find(conflict)
    if found is None:
        raise InputError(f"There is no open conflict {conflict}; counter conflicts lists them.")
    sides = {each.name: each.row for each in _sides(ledger, found)}
    if side not in sides:
        raise InputError(f"Say which side holds: {', '.join(sides)}.")
    return settle(ledger, conflict, sides[side], f"settled: {side} holds")


def row_words(row: Row) -> str:
    """A version in a word or two: its status, or that it is taken out."""
    return "taken out" if row is None else str(row.get("status", "in the table"))


def _both(ledger: Ledger, found: HeldRow) -> MergeConflict:
    sides = _sides(ledger, found)
    names = dict.fromkeys(name for side in sides for name in side.row or ())
    rows = [(name, [(side.row or {}).get(name) for side in sides]) for name in names]
    differing = [
        (_label(name), tuple(_said(name, value) for value in values))
        for name, values in rows
        if any(value != values[0] for value in values)
    ]
    if any(side.row is None for side in sides):
        differing.insert(0, ("row", tuple(row_words(side.row) for side in sides)))
    sold = _sales_of(ledger, found.key) if found.table == "items" else ()
    return MergeConflict(
        found.id, found.table, found.key, sides, tuple(differing), sold if len(sold) > 1 else ()
    )


def _sales_of(ledger: Ledger, number: str) -> tuple[str, ...]:
    """The sales that a piece has not come back from, each in words."""
    return tuple(
        f"{sale.id} of {day_words(sale.date)}, {pounds(line.price_pence - line.discount_pence)}"
        for sale in ledger.sales.holding(number)
        for line in sale.lines
        if line.item == number
    )


def _sides(ledger: Ledger, found: HeldRow) -> tuple[Side, ...]:
    here = Side(HERE, "here", ledger.row(found.table, found.key))
    return (here, *(Side(each.entry, _whose(each), each.row) for each in found.versions))


def _whose(version: HeldVersion) -> str:
    when = version.at[:16].replace("T", " ")
    return f"{version.laptop}, {when}: {version.verb}"


def _label(name: str) -> str:
    return name.removesuffix("_pence").replace("_", " ")


def _said(name: str, value: Any) -> str:
    """A value of a row in words; "not noted" when there is none."""
    if value in (None, "", [], {}):
        return "not noted"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int) and (name in _MONEY or name.endswith("_pence")):
        return pounds(value)
    if isinstance(value, Mapping):
        return ", ".join(f"{_label(key)} {_said(key, part)}" for key, part in value.items() if part)
    if isinstance(value, list):
        return "; ".join(_said(name, part) for part in value)
    return str(value)
