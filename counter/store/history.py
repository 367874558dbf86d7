"""Looking back: what an entry replaced, which entries touched a row, and taking an entry back.

Nothing is ever taken out of the journal: taking back is one more entry that puts the old rows back.
"""

from __future__ import annotations

from collections.abc import Iterator

from counter.store.entry import Change, Entry, Row, in_force
from counter.store.ledger import Befores, Ledger
from counter.values.errors import UserError

_QUIET = frozenset({"drafts", "settings"})
"""What saves itself while one types is not what a person means by the last entry."""


def history(ledger: Ledger, table: str, key: str) -> Iterator[tuple[Entry, Row | None]]:
    """The entries that changed a row, oldest first, with the row each left (None: taken out)."""
    for entry in ledger.entries():
        for change in in_force(entry):
            if change.table == table and change.key == key:
                yield entry, None if change.row is None else dict(change.row)


def undo(ledger: Ledger, entry_id: str) -> Entry:
    """Note the reversal of an entry.

    Raises UserError when there is no such entry, or when a row of it was changed since.
    """
    target, befores = _find(ledger, entry_id)
    if target.held or target.erases:
        raise UserError("A merged entry with open conflicts, or an erasure, cannot be taken back.")
    for change in target.changes:
        if ledger.state.row(change.table, change.key) != change.row:
            raise UserError(
                f"{change.key} in {change.table} was changed since, or this was taken back already; "
                f"take back the later entry first."
            )
    back = [
        Change(change.table, change.key, before)
        for change, before in zip(target.changes, befores, strict=True)
    ]
    return ledger.note(f"taken back: {target.verb}", back[::-1], reverses=target.id)


def last_to_undo(ledger: Ledger) -> Entry | None:
    """This laptop's last entry that was not taken back yet; None when there is none."""
    last: list[Entry] = []
    for entry in (each for each, _ in ledger.recent):
        _weigh(last, entry, ledger.laptop)
    if last or ledger.state.entries <= len(ledger.recent):
        return last[-1] if last else None
    for entry in ledger.entries():
        _weigh(last, entry, ledger.laptop)
    return last[-1] if last else None


def _weigh(last: list[Entry], entry: Entry, laptop: str) -> None:
    """Keep in `last` the entries that may be taken back, in order."""
    if entry.laptop != laptop:
        return
    if entry.reverses is not None:
        last[:] = [each for each in last if each.id != entry.reverses]
    elif any(change.table not in _QUIET for change in entry.changes):
        last.append(entry)


def _find(ledger: Ledger, entry_id: str) -> tuple[Entry, Befores]:
    for entry, befores in ledger.recent:
        if entry.id == entry_id:
            return entry, befores
    rows: dict[tuple[str, str], Row | None] = {}
    for entry in ledger.entries():
        if entry.id == entry_id:
            return entry, tuple(rows.get((each.table, each.key)) for each in entry.changes)
        for change in in_force(entry):
            rows[change.table, change.key] = None if change.row is None else dict(change.row)
    raise UserError(f"There is no entry {entry_id} in the journal.")
