"""What the journal adds up to: the rows of every table, the numbers used, how far each laptop got.

Entries apply in the order of the file, never of the clock, so a clock set back changes nothing.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from counter.store.entry import Change, Entry, Row
from counter.store.tables import Rows

Follow = Callable[[str, str, Row | None, Row | None], None]
"""Told of a row replaced: its table, key, and what it was and is (None: not there)."""


def _nobody_follows(table: str, key: str, before: Row | None, after: Row | None) -> None:
    pass


OWN = frozenset({"drafts"})
"""Tables of one laptop alone: a merge leaves theirs out."""

_START = re.compile(r"[A-Z]{1,3}-[A-Z]?")
_MOST_DIGITS = 15


@dataclass
class State:
    """The sum of the journal's first `covers` bytes. Rows are replaced, never changed in place."""

    rows: Rows = field(default_factory=dict)
    numbers: dict[str, int] = field(default_factory=dict)  # "WK-P" -> 17: the highest used
    seqs: dict[str, int] = field(default_factory=dict)  # laptop -> its last sequence number
    last_at: str = ""
    entries: int = 0
    covers: int = 0
    follow: Follow = _nobody_follows

    def apply(self, entry: Entry, end: int) -> None:
        """Take in an entry whose line ends at byte `end`; taking it in twice changes nothing."""
        for place, change in enumerate(entry.changes):
            if place in entry.held:
                self._hold(entry, change)
            else:
                self._put(*change)
        for table, key, _ in entry.erases:
            self.rows.get("conflicts", {}).pop(conflict_key(table, key), None)
        if entry.seq > self.seqs.get(entry.laptop, 0):
            self.seqs[entry.laptop] = entry.seq
        self.last_at = entry.at
        if end > self.covers:
            self.entries += 1
            self.covers = end

    def row(self, table: str, key: str) -> Row | None:
        """The live row; None when there is none."""
        return self.rows.get(table, {}).get(key)

    def _put(self, table: str, key: str, row: Mapping[str, Any] | None) -> None:
        self.use_number(key)
        rows = self.rows.setdefault(table, {})
        before = rows.get(key)
        if row is None:
            rows.pop(key, None)
            self.follow(table, key, before, None)
        else:
            rows[key] = after = row if type(row) is dict else dict(row)
            self.follow(table, key, before, after)

    def next_number(self, start: str) -> str:
        """The next number with that start, never one that a row has; it is not given out again."""
        count = self.numbers.get(start, 0) + 1
        while any(f"{start}{count}" in rows for rows in self.rows.values()):
            count += 1
        self.numbers[start] = count
        return f"{start}{count}"

    def use_number(self, key: str) -> None:
        """A number once seen is never given out again, even when its row is taken out."""
        start = key.rstrip("0123456789")
        digits = key[len(start) :]
        if not 0 < len(digits) <= _MOST_DIGITS or digits[0] == "0":
            return
        if start in self.numbers or _START.fullmatch(start):
            self.numbers[start] = max(int(digits), self.numbers.get(start, 0))

    def _hold(self, entry: Entry, change: Change) -> None:
        """Keep the other laptop's version of a row beside ours, to be settled by a person."""
        self.use_number(change.key)
        if change.table in OWN or change.table == "conflicts":
            return
        key = conflict_key(change.table, change.key)
        table = self.rows.setdefault("conflicts", {})
        kept = table.get(key, {"id": key, "table": change.table, "key": change.key, "versions": []})
        if any(each["entry"] == entry.id for each in kept["versions"]):
            return
        version = {
            "entry": entry.id,
            "laptop": entry.laptop,
            "at": entry.at,
            "verb": entry.verb,
            "row": change.row,
        }
        table[key] = {**kept, "versions": [*kept["versions"], version]}


def conflict_key(table: str, key: str) -> str:
    """The key in `conflicts` of a row with more than one version."""
    return f"{table} {key}"
