"""Taking back the last entry, and putting it back: named in words before it is done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from counter.desk.workspace import Workspace
from counter.store.entry import Entry
from counter.store.history import last_to_put_back, last_to_undo, undo
from counter.values.dates import day_words
from counter.values.errors import UserError
from counter.values.money import pounds

#: Tables whose numbers mean nothing to the reader: the name is said instead.
_UNSAID = ("people",)
#: So many numbers are named; of more, how many.
_MOST_NAMED = 4


@dataclass(frozen=True, slots=True)
class LastEntry:
    """The last entry that stands: in words, its day (ISO), and the purchase line it was noted from.

    `earlier`: of an earlier sitting, or of another day; then a person is asked first.
    """

    entry: Entry
    words: str
    day: str
    earlier: bool
    line: str = ""


def last_entry(workspace: Workspace, sitting: int) -> LastEntry | None:
    """The last entry; `sitting` is the laptop's number of entries when it was opened."""
    entry = last_to_undo(workspace.ledger)
    if entry is None:
        return None
    day = entry.at[:10]
    earlier = entry.seq <= sitting or day != workspace.today().isoformat()
    line = ""
    if entry.verb == "purchase noted":
        line = next((str(row.get("words", "")) for row in _rows(entry, "purchases")), "")
    return LastEntry(entry, entry_words(workspace, entry), day, earlier, line)


def entry_words(workspace: Workspace, entry: Entry) -> str:
    """An entry as a person knows it: what was done, to which pieces, for how much, with whom."""
    verb = entry.verb.removeprefix("taken back: ")
    keys = list(dict.fromkeys(each.key for each in entry.changes if each.table not in _UNSAID))
    named = ", ".join(keys) if len(keys) <= _MOST_NAMED else f"{keys[0]} and {len(keys) - 1:,} more"
    parts = [f"{verb} ({named})" if named else verb]
    for table, who in (("sales", "buyer"), ("purchases", "seller"), ("quotes", "customer")):
        for row in _rows(entry, table)[:1]:
            parts.append(pounds(int(row.get("total_pence") or 0)))
            person = workspace.ledger.people.find(str(row.get(who, "")))
            parts += [person.name] if person and person.name else []
    return ", ".join(parts)


def _rows(entry: Entry, table: str) -> list[Mapping[str, Any]]:
    return [each.row for each in entry.changes if each.table == table and each.row is not None]


def take_back(workspace: Workspace) -> str:
    """Reverse this laptop's last entry by a new one; says what it was. Raises UserError."""
    last = last_entry(workspace, 0)
    if last is None:
        raise UserError("There is nothing to take back.")
    undo(workspace.ledger, last.entry.id)
    return f"Taken back: {last.words}."


def put_back(workspace: Workspace) -> str:
    """Let what was taken back last stand again; says what it is. Raises UserError."""
    reversal = last_to_put_back(workspace.ledger)
    if reversal is None:
        raise UserError("There is nothing to put back: only what was just taken back can be.")
    entry = undo(workspace.ledger, reversal.id)
    return f"Put back: {entry_words(workspace, entry._replace(verb=entry.verb[len('put back: ') :]))}."


def asked_first(last: LastEntry) -> str:
    """The question before an earlier entry is taken back."""
    return f"This was {day_words(last.day)}: {last.words}."
