"""Snapshots: the rows as they stood at a byte of the journal, so that opening need not replay it all.

A snapshot is never the truth. One that is damaged or does not fit the journal is passed over for the
previous one, and that one for the journal itself. Rows come in checksummed lines of a few hundred: a
line is read in a millisecond or two, so a screen beside the reading thread stays awake.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from counter.store.entry import Row, seal, unseal
from counter.store.files import Disk, write_beside
from counter.store.journal import Journal
from counter.store.state import State

NAME = "snapshot"
PREVIOUS = "snapshot.previous"
_ROWS_A_LINE = 500
_TAIL = 64  # bytes of the journal kept to recognise it by


def write_snapshot(folder: Path, state: State, journal: Journal, *, disk: Disk) -> None:
    """Write the state beside, sync it, rename it over; the old one is kept. Raises OSError."""
    mark = journal.bytes_at(max(0, state.covers - _TAIL), state.covers)
    lines = _lines(state, mark.hex())
    write_beside(folder / NAME, lines, disk=disk, previous=folder / PREVIOUS)


def read_snapshot(path: Path, journal: Journal | None) -> State | str:
    """The state in a snapshot, or why it cannot be used, in words. `journal` None skips the fit."""
    try:
        with path.open("rb") as file:
            head = unseal(file.readline())
            if head is None or head.get("snapshot") != 1:
                return "its first line is damaged"
            if journal is not None and (unfit := _unfit(head, journal)):
                return unfit
            return _read(head, iter(file))
    except OSError as fault:
        return f"it cannot be read ({fault.strerror})"
    except (KeyError, TypeError, ValueError):
        return "it is not a snapshot"


def _lines(state: State, mark: str) -> Iterator[bytes]:
    yield seal(
        {
            "snapshot": 1,
            "covers": state.covers,
            "mark": mark,
            "entries": state.entries,
            "numbers": state.numbers,
            "seqs": state.seqs,
            "last_at": state.last_at,
        }
    )
    count = 0
    for table, rows in state.rows.items():
        items = iter(rows.items())
        while some := dict(islice(items, _ROWS_A_LINE)):
            yield seal({"table": table, "rows": some})
            count += 1
    yield seal({"end": count})


def _unfit(head: Row, journal: Journal) -> str:
    covers = head["covers"]
    if covers > journal.size:
        return ""  # the snapshot is whole, the journal is not: the opener must see that
    mark = bytes.fromhex(head["mark"])
    if journal.bytes_at(max(0, covers - _TAIL), covers) != mark:
        return "it belongs to another journal"
    return ""


def _read(head: Row, lines: Iterator[bytes]) -> State | str:
    state = State(
        numbers=dict(head["numbers"]),
        seqs=dict(head["seqs"]),
        last_at=head["last_at"],
        entries=head["entries"],
        covers=head["covers"],
    )
    for count, line in enumerate(lines):
        data = unseal(line)
        if data is None:
            return "a line of it is damaged"
        if "end" in data:
            return state if data["end"] == count else "lines of it are missing"
        state.rows.setdefault(data["table"], {}).update(data["rows"])
    return "its end is missing"
