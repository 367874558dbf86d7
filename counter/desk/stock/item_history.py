"""What became of a piece: the entries that touched it, in words, without costs."""

from __future__ import annotations

from dataclasses import dataclass

from counter.desk.stock.item_fields import EDITABLE
from counter.store.history import history
from counter.store.ledger import Ledger
from counter.values.item import Item
from counter.values.record import read_record


@dataclass(frozen=True, slots=True)
class HistoryEntry:
    """An entry that touched a piece: when (ISO), what was done, what it changed.

    `changes` are (field, before, after) in words, "" for not noted; cost is never among them.
    """

    at: str
    verb: str
    changes: tuple[tuple[str, str, str], ...] = ()


def item_history(ledger: Ledger, number: str) -> list[HistoryEntry]:
    """Every entry that touched a piece, the latest first. Reads the whole journal."""
    found: list[HistoryEntry] = []
    before: Item | None = None
    for entry, row in history(ledger, "items", number):
        after = None if row is None else read_record(Item, row)
        changes = _changes(before, after) if before and after else ()
        verb = entry.verb if after else f"{entry.verb} (taken out of stock)"
        found.append(HistoryEntry(entry.at, verb, changes))
        before = after
    return found[::-1]


def _changes(before: Item, after: Item) -> tuple[tuple[str, str, str], ...]:
    shown = [(field.label, field.said(before), field.said(after)) for field in EDITABLE]
    told = [(label, was, now) for label, was, now in shown if was != now]
    if before.issue != after.issue:
        told.insert(0, ("issue", before.issue.replace("_", " "), after.issue.replace("_", " ")))
    if len(after.treatments) > len(before.treatments):
        told.append(("treatment", "", after.treatments[-1].treatment.replace("_", " ")))
    return tuple(told)
