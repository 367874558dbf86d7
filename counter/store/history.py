"""Looking back: what an entry replaced, which entries touched a row, and taking an entry back.

Nothing is ever taken out of the journal: taking back is one more entry that puts the old rows back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

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
    """Note the reversal of an entry; of a reversal: what it took back stands again.

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
    verb = f"taken back: {target.verb}"
    if target.reverses is not None:
        verb = f"put back: {target.verb.removeprefix('taken back: ')}"
    return ledger.note(verb, back[::-1], reverses=target.id)


def last_to_undo(ledger: Ledger) -> Entry | None:
    """This laptop's last entry that was not taken back yet; None when there is none."""
    trail = _trail(ledger, lambda trail: bool(trail.standing))
    return trail.standing[-1] if trail.standing else None


def last_to_put_back(ledger: Ledger) -> Entry | None:
    """The last taking back that may be reversed; None when something else was noted since."""
    trail = _trail(ledger, lambda trail: bool(trail.standing or trail.gone))
    return trail.gone[-1][0] if trail.gone else None


class _Trail:
    """What of one laptop still stands, and what was taken back since it last noted something else."""

    def __init__(self, laptop: str) -> None:
        self.laptop = laptop
        self.standing: list[Entry] = []
        self.gone: list[tuple[Entry, Entry]] = []  # the reversal, and what it reversed
        self.whole = True  # whether every entry that was reversed has been seen

    def weigh(self, entry: Entry) -> None:
        """One entry more, in order."""
        if entry.laptop != self.laptop:
            return
        if entry.reverses is None:
            if any(change.table not in _QUIET for change in entry.changes):
                self.standing.append(entry)
                self.gone.clear()
            return
        again = next((pair for pair in self.gone if pair[0].id == entry.reverses), None)
        if again:
            self.gone.remove(again)
            self.standing.append(again[1])
            return
        taken = next((each for each in self.standing if each.id == entry.reverses), None)
        if taken is None:
            self.whole = False
        else:
            self.standing.remove(taken)
            self.gone.append((entry, taken))


def _trail(ledger: Ledger, enough: Callable[[_Trail], bool]) -> _Trail:
    """From the recent entries alone where they tell enough, else from the whole journal."""
    trail = _Trail(ledger.laptop)
    for entry, _ in ledger.recent:
        trail.weigh(entry)
    if trail.whole and (enough(trail) or ledger.state.entries <= len(ledger.recent)):
        return trail
    trail = _Trail(ledger.laptop)
    for entry in ledger.entries():
        trail.weigh(entry)
    return trail


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
