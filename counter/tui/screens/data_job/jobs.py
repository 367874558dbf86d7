"""What can be done with one file or folder: each a question for its path and the work itself."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from counter.csv_files.exporting import KINDS, export
from counter.desk.data.messages import (
    backed_up_words,
    merged_words,
    read_words,
    recovered_words,
    restored_words,
    sound_words,
)
from counter.store.backup import backup, restore
from counter.store.ledger import Ledger
from counter.store.merge import merge
from counter.store.progress import Progress
from counter.store.recover import recover
from counter.store.verify import Report, verify
from counter.tui.widgets.text import Span

_SIGNS = {"fault": ("  ✗ ", "bad"), "to do": ("  ▸ ", "care"), "remark": ("  · ", "dim")}


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of it: the sentence to tell, and paragraphs with the sign before each."""

    sentence: str
    paragraphs: tuple[tuple[Span, str], ...] = ()
    wrong: bool = False


@dataclass(frozen=True, slots=True)
class JobOrder:
    """What was asked for: the ledger (closed for a restore), the path, the choice, the time."""

    ledger: Ledger
    path: Path
    choice: str
    now: datetime
    progress: Progress


@dataclass(frozen=True, slots=True)
class Job:
    """A piece of work.

    `asks` is the word before the line for the path ("" asks for none), `name` what the path starts
    as ({day} and {choice} are filled in); `sure` is asked before it is done; `notes` needs a window
    that may note; `shut` works on the folder itself, the desk closed meanwhile.
    """

    id: str
    title: str
    short: str
    brief: str
    about: str
    doing: str
    do: Callable[[JobOrder], Outcome]
    asks: str = ""
    name: str = ""
    suffix: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    sure: str = ""
    notes: bool = False
    shut: bool = False

    def begins(self, day: str, choice: str) -> str:
        """What the line for the path starts with."""
        return self.name.format(day=day, choice=choice)


def _export(order: JobOrder) -> Outcome:
    count = export(order.ledger, order.choice, order.path, order.progress)
    return Outcome(f"{order.path} holds the {order.choice}; lines: {count:,}.")


def _backup(order: JobOrder) -> Outcome:
    done = backup(order.ledger.folder, order.path, now=order.now, progress=order.progress)
    return Outcome(backed_up_words(done))


def _verify(order: JobOrder) -> Outcome:
    report = verify(order.ledger.folder, order.progress)
    return Outcome(sound_words(report).replace("!!", "✗"), _findings(report), not report.sound)


def _findings(report: Report) -> tuple[tuple[Span, str], ...]:
    read: tuple[Span, str] = (("  ", "plain"), read_words(report))
    return (read, *((_SIGNS[each.weight], each.words) for each in report.findings))


def _restore(order: JobOrder) -> Outcome:
    same = order.choice == "same"
    done = restore(
        order.path,
        order.ledger.folder,
        now=order.now,
        same_laptop=same,
        set_aside=True,
        progress=order.progress,
    )
    return Outcome(restored_words(done), _findings(done.report), not done.report.sound)


def _merge(order: JobOrder) -> Outcome:
    done = merge(order.ledger, order.path, order.progress)
    lines: list[tuple[Span, str]] = [
        (("  ▸ ", "care"), f"{each.key} in {each.table}: both changed it, yours stands until settled.")
        for each in done.conflicts
    ]
    lines += [(("  ✗ ", "bad"), words) for words in done.told]
    return Outcome(merged_words(done), tuple(lines), bool(done.told))


def _recover(order: JobOrder) -> Outcome:
    return Outcome(recovered_words(recover(order.ledger)))


# fmt: off
JOBS: tuple[Job, ...] = (
    Job("export", "Write out as CSV", "write out as CSV", "stock, purchases or sales for a spreadsheet",
        "For a spreadsheet or the accountant: UTF-8, one line a piece, sums in pounds. Nothing that "
        "a spreadsheet would run as a formula. A file that is there already is never written over.",
        "Writing it out", _export, "file", "~/{choice}-{day}.csv",
        choices=tuple((kind, f"the {kind}") for kind in KINDS)),
    Job("verify", "Look it over", "look it over", "every checksum, number and cross-reference",
        "Reads everything again: every checksum, every number, every cross-reference. Changes nothing.",
        "Reading everything", _verify),
    Job("backup", "Back it up", "back it up", "everything in one file",
        "One file with everything in it, read back before it counts. Keep it on another disk, and "
        "where only you can read it: it holds people's names.",
        "Backing it up", _backup, "file", "~/counter-{day}.zip"),
    Job("restore", "Put a backup back", "put a backup back", "what is here now is kept beside",
        "What is here now is renamed and kept beside; the backup takes its place.",
        "Putting it back", _restore, "file", "~/", ".zip",
        (("own", "the computer it came from may still be used: this one gets letters of its own"),
         ("same", "that computer is gone, or is this one: go on with its letters and numbers")),
        "What is here now is renamed and kept. Enter again puts the backup in its place.", shut=True),
    Job("merge", "Bring in another laptop's notes", "bring in another laptop",
        "what was noted there",
        "Its data folder, or a copy of it on a stick; that folder is only read. What both changed "
        "waits for your word. Bringing it in twice changes nothing.",
        "Bringing it in", _merge, "folder", "~/", notes=True),
    Job("recover", "Carry over from the snapshot", "carry over from the snapshot",
        "the journal lost its end",
        "The journal lost its end, and a snapshot still has the rows. They are put back; the short "
        "journal is copied aside first.",
        "Carrying it over", _recover,
        sure="The rows of the snapshot are noted again. Enter again does it."),
)
# fmt: on
JOB = {each.id: each for each in JOBS}
