"""Reading everything again: every checksum, every number, every cross-reference. Changes nothing."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from counter.store.crossrefs import crossed
from counter.store.entry import Change
from counter.store.erase import Erasures
from counter.store.files import Disk, bulk, os_error_message
from counter.store.journal import Journal
from counter.store.progress import Progress, go_on, mind
from counter.store.records.check import check_change
from counter.store.sequences import Sequences
from counter.store.snapshot import NAME, PREVIOUS, read_snapshot
from counter.store.state import State
from counter.store.tables import Rows
from counter.values.errors import UserError

_TELL_EVERY = 500  # lines between two words on how far it is
Weight = Literal["fault", "to do", "remark"]


@dataclass(frozen=True, slots=True)
class VerifyFinding:
    """What `verify` says: a fault is damage, "to do" is for the dealer, a remark needs nothing."""

    weight: Weight
    words: str


@dataclass(frozen=True, slots=True)
class Report:
    """What `verify` read and found."""

    entries: int
    laptops: tuple[str, ...]
    rows: dict[str, int]
    findings: tuple[VerifyFinding, ...]

    @property
    def sound(self) -> bool:
        """True when nothing is damaged."""
        return all(each.weight != "fault" for each in self.findings)


def verify(folder: Path, progress: Progress = go_on) -> Report:
    """Read the whole data folder and report. Raises UserError when there is no journal to read.

    `progress` counts the journal's bytes; stopping it raises Stopped.
    """
    told: list[str] = []
    try:
        journal = Journal(folder, writable=False, told=told.append, disk=Disk())
    except OSError as fault:
        raise os_error_message(fault, "reading the journal", folder) from fault
    try:
        findings = [VerifyFinding("fault", each) for each in told]
        if journal.newer:
            findings.append(VerifyFinding("to do", journal.newer))
        with bulk():
            state, read = _read(journal, folder, findings, progress)
        findings += (VerifyFinding("fault", words) for words in read.faults())
        findings += (VerifyFinding("remark", words) for words in read.remarks())
        findings += _still_said(journal, read.erased)
        findings += _rows(state)
        findings += (VerifyFinding(weight, words) for weight, words in crossed(state))
        findings += _open_to_others(folder)
    finally:
        journal.close()
    counts = {table: len(rows) for table, rows in sorted(state.rows.items()) if rows}
    return Report(read.count, tuple(sorted(state.seqs)), counts, tuple(findings))


def _read(
    journal: Journal, folder: Path, findings: list[VerifyFinding], progress: Progress
) -> tuple[State, Sequences]:
    """Add the journal up, comparing with each snapshot at the byte it covers."""
    snapshots = _snapshots(journal, folder, findings)
    state, read, damaged = State(), Sequences(), False
    for number, line in enumerate(journal.lines()):
        if number % _TELL_EVERY == 0:
            mind(progress, line.start, journal.size, "the reading")
        if line.newer:
            words = f"An entry is of a kind that only a newer counter knows, at byte {line.start}."
            findings.append(VerifyFinding("to do", words))
            state.covers = line.end
        elif line.entry is None:
            damaged = True
            where = f"from byte {line.start} to {line.end}"
            findings.append(VerifyFinding("fault", f"An entry of the journal is damaged, {where}."))
            state.covers = line.end
        else:
            state.apply(line.entry, line.end)
            read.take(line.entry)
        for name, snapshot in snapshots.items():
            if snapshot.covers == line.end and _filled(snapshot) != _filled(state):
                findings.append(VerifyFinding("fault", _other_words(name, damaged)))
    left = len(journal.torn())
    if left:
        words = (
            f"The last {left} bytes are an entry that was never finished; it is set aside when noting."
        )
        findings.append(VerifyFinding("remark", words))
    return state, read


def _other_words(name: str, damaged: bool) -> str:
    """A snapshot and the journal differ: which to trust depends on whether a line is damaged."""
    if damaged:
        return (
            f"The {name} has rows whose entry in the journal is damaged: do not delete it; copy the whole "
            f"data folder to a safe place, and erase and restore nothing until that is done."
        )
    return f"The {name} does not say what the journal says; delete it, it is made anew."


def _snapshots(journal: Journal, folder: Path, findings: list[VerifyFinding]) -> dict[str, State]:
    sound = {}
    for name in (NAME, PREVIOUS):
        if not (folder / name).exists():
            continue
        found = read_snapshot(folder / name, journal)
        if isinstance(found, State) and found.covers > journal.size:
            words = f"The end of the journal is missing: the {name} stands at entry {found.entries}."
            findings.append(VerifyFinding("fault", words))
        elif isinstance(found, State):
            sound[name] = found
        else:
            findings.append(VerifyFinding("fault", f"The {name} cannot be used: {found}."))
    return sound


def _still_said(journal: Journal, erased: Erasures) -> Iterator[VerifyFinding]:
    """What was erased on request must be in no entry that did not know of it."""
    lines = journal.lines() if erased else ()
    for line in lines:
        if line.entry is not None and erased.scrubbed(line.entry) is not None:
            words = (
                f"The entry at byte {line.start} still holds what was erased on request; "
                f"erase that person again."
            )
            yield VerifyFinding("fault", words)


def _filled(state: State) -> Rows:
    return {table: rows for table, rows in state.rows.items() if rows}


def _rows(state: State) -> Iterator[VerifyFinding]:
    """Rows that today's rules would not let in."""
    for table, rows in state.rows.items():
        for key, row in rows.items():
            try:
                check_change(Change(table, key, row))
            except UserError as trouble:
                yield VerifyFinding("fault", str(trouble).replace(" was not noted", " is not right"))


def _open_to_others(folder: Path) -> Iterator[VerifyFinding]:
    if os.name != "posix":
        return
    for path in (folder, *sorted(folder.iterdir())):
        if path.stat().st_mode & 0o077:
            yield VerifyFinding(
                "to do", f"{path} can be read by other users of this computer; make it private."
            )
