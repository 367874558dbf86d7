"""When the journal lost its end (or is gone) and a snapshot still has the rows: carry them back.

What the snapshot holds beyond the journal is appended as new entries, so every row stands again; the
short journal is copied aside first. The single entries of the lost end stay lost, and verify says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from counter.store.entry import Change
from counter.store.files import os_error_message, private_folder, write_beside
from counter.store.journal import NAME, Journal
from counter.store.ledger import Ledger
from counter.store.snapshot import NAME as SNAPSHOT
from counter.store.snapshot import PREVIOUS
from counter.store.state import State
from counter.values.errors import UserError

_TOGETHER = 500
VERB = "carried over from the snapshot"


@dataclass(frozen=True, slots=True)
class Recovered:
    """How many rows were carried over, and where the short journal was copied to."""

    rows: int
    aside: str


def recover(ledger: Ledger) -> Recovered:
    """Carry the snapshot's rows into the journal and open it for writing. Raises UserError."""
    if not ledger.cut_short:
        raise UserError("The journal is not shorter than its snapshot: there is nothing to carry over.")
    kept = ledger.state
    try:
        aside = _set_aside(ledger)
        lines: list[bytes] = []
        for some in _chunks(_differences(_short_state(ledger.journal), kept)):
            entry = ledger.next_entry(VERB, some, ahead=len(lines))
            lines.append(ledger.seal(entry))
        _append(ledger, lines)
        for name in (SNAPSHOT, PREVIOUS):
            (ledger.folder / name).unlink(missing_ok=True)
    except OSError as fault:
        raise os_error_message(fault, "carrying the snapshot over", ledger.folder) from fault
    numbers = kept.numbers
    ledger.reload()
    ledger.state.numbers.update(numbers)
    ledger.snapshot()
    return Recovered(sum(len(rows) for rows in kept.rows.values()), aside)


def _append(ledger: Ledger, lines: list[bytes]) -> None:
    if lines:
        ledger.journal.append(b"".join(lines))
    ledger.write_again()


def _short_state(journal: Journal) -> State:
    state = State()
    for line in journal.lines():
        if line.entry is not None:
            state.apply(line.entry, line.end)
    return state


def _differences(short: State, kept: State) -> Iterator[Change]:
    for table in {**short.rows, **kept.rows}:
        before, after = short.rows.get(table, {}), kept.rows.get(table, {})
        yield from (Change(table, key, row) for key, row in after.items() if before.get(key) != row)
        yield from (Change(table, key, None) for key in before if key not in after)


def _chunks(changes: Iterator[Change]) -> Iterator[list[Change]]:
    while some := list(islice(changes, _TOGETHER)):
        yield some


def _set_aside(ledger: Ledger) -> str:
    place = ledger.folder / "aside"
    private_folder(place)
    copy = place / f"{NAME}-{ledger.clock():%Y%m%d-%H%M%S}"
    write_beside(copy, [ledger.journal.bytes_at(0, ledger.journal.size)], disk=ledger.disk)
    return str(copy)
