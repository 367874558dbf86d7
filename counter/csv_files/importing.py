"""Reading a stock list: which column is what, what each line says, and every line refused with why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import islice

from msgspec.structs import replace

from counter.csv_files.cells import unguard
from counter.csv_files.columns import SPARED, Column
from counter.csv_files.mapping import REMEMBERED, Columns, mapping_for, named
from counter.csv_files.reading import CsvRecord, CsvSheet
from counter.store.entry import Change, Row
from counter.store.ledger import Ledger
from counter.store.progress import Progress, go_on
from counter.store.records.check import check_change, put
from counter.values.errors import InputError, UserError
from counter.values.item import CoverFacts, Item
from counter.values.record import read_record

_TOGETHER = 500  # lines noted with one wait for the disk
_FILES = "imported files"


@dataclass(frozen=True, slots=True)
class Refused:
    """A line that did not come in, and why, in one sentence."""

    line: int
    why: str


@dataclass(frozen=True, slots=True)
class Imported:
    """What came of an import, or would come of it: counts, and every line refused.

    `remarked` counts the lines that came in with an unknown purchase number kept in their remarks;
    `odd` are cells that could not be read (a price of "POA"): their lines came in, the cell as a remark.
    """

    taken: int
    known: int
    refused: tuple[Refused, ...]
    mapping: Mapping[str, str]
    stopped: bool
    dry_run: bool
    remarked: int = 0
    odd: tuple[Refused, ...] = ()

    @property
    def told(self) -> tuple[Refused, ...]:
        """Every line to look at: the refused ones, then those that came in with an odd cell."""
        return (*self.refused, *(Refused(each.line, f"Comes in; {each.why}") for each in self.odd))


def import_stock(
    ledger: Ledger,
    sheet: CsvSheet,
    *,
    said: Mapping[str, str] | None = None,
    dry_run: bool = False,
    again: bool = False,
    progress: Progress = go_on,
) -> Imported:
    """Bring the lines of a stock list in; one bad line never stops the rest.

    A line whose stock number is here already is left out: quietly when it says the same, else refused.
    Of a file that came in before, lines without a stock number are refused unless `again` is said; one
    that was stopped half-way goes on where it stopped. `progress` counts lines of the file.
    Raises UserError when the file as a whole cannot be used, or the disk refuses (what came in stays).
    """
    headings, records = headings_of(sheet), sheet.records()
    next(records)
    columns = mapping_for(ledger, headings, said or {})
    if not any(columns.values()):
        raise UserError(f"No column was recognised in: {', '.join(headings)}; say what they are.")
    before = None if again else came_in(ledger, sheet)
    if not dry_run:
        _note_new(ledger, _headings_row(ledger, columns))
    run = _Run(ledger, sheet, [columns[heading] for heading in headings], dry_run, before)
    stopped = False
    while some := list(islice(records, _TOGETHER)):
        try:
            run.take(some)
        except UserError as trouble:
            raise UserError(f"{run.taken} lines came in; then it stopped. {trouble}") from trouble
        if not progress(some[-1].line, len(sheet.lines)):
            stopped = True
            break
    if not (stopped or dry_run):
        _note_new(ledger, _files_row(ledger, sheet, None))
    return Imported(
        run.taken,
        run.known,
        tuple(run.refused),
        named(columns),
        stopped,
        dry_run,
        run.remarked,
        tuple(run.odd),
    )


def headings_of(sheet: CsvSheet) -> list[str]:
    """The names of the columns, from the first line. Raises UserError when there is none."""
    head = next(sheet.records(), None)
    if head is None or head.wrong:
        raise UserError("The file is empty: its first line must name the columns.")
    return [unguard(cell).strip() for cell in head.cells]


@dataclass(frozen=True, slots=True)
class CameIn:
    """A file that came in before: on which day (ISO), and up to which line if it was stopped."""

    day: str
    upto: int | None = None


def came_in(ledger: Ledger, sheet: CsvSheet) -> CameIn | None:
    """When this very file came in before; None when it never did."""
    noted = (ledger.row("settings", _FILES) or {}).get(sheet.digest)
    if noted is None:
        return None
    return CameIn(noted) if isinstance(noted, str) else CameIn(noted["day"], noted["line"])


class _Run:
    """One import under way."""

    def __init__(
        self,
        ledger: Ledger,
        sheet: CsvSheet,
        columns: Sequence[Column | None],
        dry_run: bool,
        before: CameIn | None,
    ) -> None:
        self.before = before
        self.ledger = ledger
        self.sheet = sheet
        self.columns = columns
        self.dry_run = dry_run
        self.taken = 0
        self.known = 0
        self.remarked = 0
        self.odd: list[Refused] = []
        self.refused: list[Refused] = []
        self._here: set[str] = set()
        self._spared: dict[int, str] = {}

    def take(self, records: Sequence[CsvRecord]) -> None:
        """Note the good lines of some, with one wait for the disk."""
        changes = []
        for record in records:
            try:
                change = self._change(record)
            except UserError as trouble:
                self.refused.append(Refused(record.line, str(trouble)))
                continue
            if change is None:
                self.known += 1
            else:
                changes.append(change)
                if why := self._spared.get(record.line):
                    self.odd.append(Refused(record.line, why))
        if changes and not self.dry_run:
            notes = [("stock imported", [change]) for change in changes]
            self.ledger.note_many([*self._mark(records[-1].line), *notes])
        self.taken += len(changes)

    def _mark(self, line: int) -> list[tuple[str, list[Change]]]:
        """How far the file is in now: goes to the disk with the lines themselves, before them."""
        if self.before and self.before.upto is None:
            return []
        upto = max(line, self.before.upto or 0) if self.before else line
        return [("import remembered", [_files_row(self.ledger, self.sheet, upto)])]

    def _change(self, record: CsvRecord) -> Change | None:
        """The new row of a line; None when it is here already. Raises UserError."""
        if record.wrong:
            raise UserError(f"{record.wrong[:1].upper()}{record.wrong[1:]}.")
        row = self._row(record)
        number = str(row.pop("number", ""))
        if not number and self._came_before(record):
            day = self.before.day if self.before else ""
            raise UserError(
                f"It has no stock number and came in with this file on {day}; "
                f"it comes in once more only if you say so."
            )
        new = number or ("(new)" if self.dry_run else self.ledger.next_number("items"))
        check_change(Change("items", new, {"number": new, **row}))
        item = self._of_these_books(read_record(Item, {"number": new, **row}))
        if number in self._here:
            raise UserError(f"Stock number {number} is in the file twice.")
        if number and (known := self.ledger.items.find(number)) is not None:
            if same_item(known, item):
                return None
            raise UserError(f"Stock number {number} is in the stock already and says something else.")
        if number:
            self._here.add(number)
        self.remarked += bool("purchase" in row and not item.purchase)
        return put(item)

    def _of_these_books(self, item: Item) -> Item:
        """A purchase that is not in these books: its number is kept, but only as a remark."""
        if not item.purchase or self.ledger.purchases.holds(item.purchase):
            return item
        said = f"purchase {item.purchase} of other books"
        return replace(item, purchase="", remarks="; ".join(filter(None, (item.remarks, said))))

    def _came_before(self, record: CsvRecord) -> bool:
        before = self.before
        return before is not None and (before.upto is None or record.line <= before.upto)

    def _row(self, record: CsvRecord) -> Row:
        if len(record.cells) > len(self.columns):
            more = len(record.cells) - len(self.columns)
            if any(cell.strip() for cell in record.cells[-more:]):
                cells = "one cell" if more == 1 else f"{more} cells"
                raise UserError(f"The line has {cells} more than there are columns.")
        row: Row = {}
        spared = []
        for column, cell in zip(self.columns, record.cells, strict=False):
            if column is None:
                continue
            try:
                column.put(row, unguard(cell))
            except InputError as bad:
                if column.heading not in SPARED:
                    raise UserError(f"{column.heading}: {bad}") from None
                spared.append((f"{column.heading} {unguard(cell).strip()}", str(bad)))
        if not row:
            raise UserError("None of its cells is in a column that was recognised.")
        if spared:
            row["remarks"] = "; ".join(
                filter(None, (row.get("remarks", ""), *(each for each, _ in spared)))
            )
            self._spared[record.line] = "; ".join(f"{cell}: {why}" for cell, why in spared)
        return row


def same_item(one: Item, other: Item) -> bool:
    """Whether two say the same of a piece, an empty cover written out or not."""
    return _less_empty(one) == _less_empty(other)


def _less_empty(item: Item) -> Item:
    return replace(item, cover=None) if item.cover == CoverFacts() else item


def _headings_row(ledger: Ledger, columns: Columns) -> Change:
    known = ledger.row("settings", REMEMBERED) or {}
    return Change("settings", REMEMBERED, {**known, **named(columns)})


def _files_row(ledger: Ledger, sheet: CsvSheet, upto: int | None) -> Change:
    """That the file came in today: all of it, or up to a line."""
    day = ledger.clock().date().isoformat()
    mark = day if upto is None else {"day": day, "line": upto}
    return Change("settings", _FILES, {**(ledger.row("settings", _FILES) or {}), sheet.digest: mark})


def _note_new(ledger: Ledger, change: Change) -> None:
    if change.row != ledger.row("settings", change.key):
        ledger.note("import remembered", [change])
