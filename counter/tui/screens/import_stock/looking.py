"""Looking a stock list over: read, its columns taken as remembered or guessed, tried without noting."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from counter.csv_files.cells import unguard
from counter.csv_files.importing import CameIn, Imported, came_in, headings_of, import_stock
from counter.csv_files.mapping import SKIP, named, suggested
from counter.csv_files.reading import CsvSheet, read_sheet
from counter.store.ledger import Ledger
from counter.store.progress import Progress


@dataclass(frozen=True, slots=True)
class LookedOver:
    """A list that was read: its columns as taken, an example cell of each, and what came of it.

    `done` is None when no column is recognised; its `dry_run` says whether anything came in yet.
    """

    path: Path
    sheet: CsvSheet
    columns: Mapping[str, str]
    examples: Mapping[str, str]
    before: CameIn | None
    again: bool
    done: Imported | None


def look_over(
    ledger: Ledger,
    path: Path,
    columns: Mapping[str, str] | None,
    again: bool,
    progress: Progress,
) -> LookedOver:
    """What would come of the file, noting nothing. Raises UserError when it cannot be read."""
    sheet = read_sheet(path)
    headings = headings_of(sheet)
    taken = dict(columns) if columns is not None else named(suggested(ledger, headings))
    done = None
    if any(name != SKIP for name in taken.values()):
        done = import_stock(ledger, sheet, said=taken, dry_run=True, again=again, progress=progress)
    before = came_in(ledger, sheet)
    return LookedOver(path, sheet, taken, _examples(sheet, headings), before, again, done)


def bring_in(ledger: Ledger, found: LookedOver, progress: Progress) -> LookedOver:
    """The lines that were looked over, noted. Raises UserError; what came in until then stays."""
    done = import_stock(ledger, found.sheet, said=found.columns, again=found.again, progress=progress)
    return LookedOver(found.path, found.sheet, found.columns, found.examples, found.before, False, done)


def _examples(sheet: CsvSheet, headings: list[str]) -> dict[str, str]:
    """The first cell of each column that says anything, among the first lines."""
    found: dict[str, str] = {}
    for record in islice(sheet.records(), 1, 20):
        for heading, cell in zip(headings, record.cells, strict=False):
            if cell.strip():
                found.setdefault(heading, unguard(cell).strip())
    return found
