"""Reading a stock list: which column is what, what each line says, and every line refused with why."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from counter.ledger.entry import Change, Row
from counter.ledger.ledger import Ledger
from counter.ledger.records.check import check_change
from counter.ledger.sheets.cells import unguard
from counter.ledger.sheets.columns import BY_HEADING, Column, guess
from counter.ledger.sheets.reading import Record, Sheet
from counter.values.item import CoverFacts, Item, item_from_row
from counter.values.trouble import BadWords, Trouble

_TOGETHER = 500  # lines noted with one wait for the disk
_SKIP = "-"
_HEADINGS = "import headings"
_FILES = "imported files"

Progress = Callable[[int, int], bool]
"""Called with lines done and lines in all; False stops the import after what is noted so far."""


@dataclass(frozen=True, slots=True)
class Refused:
    """A line that did not come in, and why, in one sentence."""

    line: int
    why: str


@dataclass(frozen=True, slots=True)
class Imported:
    """What came of an import, or would come of it: counts, and every line refused."""

    taken: int
    known: int
    refused: tuple[Refused, ...]
    mapping: Mapping[str, str]
    stopped: bool
    dry_run: bool


def mapping_for(
    ledger: Ledger, headings: Sequence[str], said: Mapping[str, str]
) -> dict[str, Column | None]:
    """Which column each heading is: as `said`, else as remembered, else as its words suggest.

    Raises BadWords on a heading or column that is not there, or when two headings mean one column.
    """
    remembered = ledger.row("settings", _HEADINGS) or {}
    for heading in said:
        if heading not in headings:
            raise BadWords(f"The file has no column {heading!r}; it has {', '.join(headings)}.")
    chosen: dict[str, Column | None] = {}
    for heading in headings:
        name = said.get(heading, remembered.get(heading))
        if name is None:
            chosen[heading] = guess(heading)
        elif name == _SKIP:
            chosen[heading] = None
        elif name in BY_HEADING:
            chosen[heading] = BY_HEADING[name]
        else:
            raise BadWords(f"There is no stock column {name!r}; there are {', '.join(BY_HEADING)}.")
    _each_once(chosen)
    return chosen


def import_stock(
    ledger: Ledger,
    sheet: Sheet,
    *,
    said: Mapping[str, str] | None = None,
    dry_run: bool = False,
    again: bool = False,
    progress: Progress = lambda done, all_: True,
) -> Imported:
    """Bring the lines of a stock list in; one bad line never stops the rest.

    A line whose stock number is here already is left out: quietly when it says the same, else refused.
    Of a file that came in before, lines without a stock number are refused unless `again` is said.
    Raises Trouble when the file as a whole cannot be used, or the disk refuses (what came in stays).
    """
    records = sheet.records()
    head = next(records, None)
    if head is None or head.wrong:
        raise Trouble("The file is empty: its first line must name the columns.")
    headings = [unguard(cell).strip() for cell in head.cells]
    columns = mapping_for(ledger, headings, said or {})
    if not any(columns.values()):
        raise Trouble(f"No column was recognised in: {', '.join(headings)}; name them with --map.")
    before = "" if again else (ledger.row("settings", _FILES) or {}).get(sheet.digest, "")
    if not dry_run:
        _remember(ledger, columns, sheet)
    run = _Run(ledger, [columns[heading] for heading in headings], dry_run, before)
    total, stopped = len(sheet.lines), False
    while some := list(islice(records, _TOGETHER)):
        try:
            run.take(some)
        except Trouble as trouble:
            raise Trouble(f"{run.taken} lines came in; then it stopped. {trouble}") from trouble
        if not progress(some[-1].line, total):
            stopped = True
            break
    named = {heading: column.heading if column else _SKIP for heading, column in columns.items()}
    return Imported(run.taken, run.known, tuple(run.refused), named, stopped, dry_run)


class _Run:
    """One import under way."""

    def __init__(
        self, ledger: Ledger, columns: Sequence[Column | None], dry_run: bool, before: str
    ) -> None:
        self.before = before
        self.ledger = ledger
        self.columns = columns
        self.dry_run = dry_run
        self.taken = 0
        self.known = 0
        self.refused: list[Refused] = []
        self._here: set[str] = set()

    def take(self, records: Sequence[Record]) -> None:
        """Note the good lines of some, with one wait for the disk."""
        changes = []
        for record in records:
            try:
                change = self._change(record)
            except Trouble as trouble:
                self.refused.append(Refused(record.line, str(trouble)))
                continue
            if change is None:
                self.known += 1
            else:
                changes.append(change)
        if changes and not self.dry_run:
            self.ledger.note_many([("stock imported", [change]) for change in changes])
        self.taken += len(changes)

    def _change(self, record: Record) -> Change | None:
        """The new row of a line; None when it is here already. Raises Trouble."""
        if record.wrong:
            raise Trouble(f"{record.wrong[:1].upper()}{record.wrong[1:]}.")
        row = self._row(record)
        number = row.get("number", "")
        if not number and self.before:
            raise Trouble(
                f"It has no stock number and this file came in on {self.before}: say --again."
            )
        new = number or ("(new)" if self.dry_run else self.ledger.next_number("items"))
        change = Change("items", new, {**row, "number": new})
        check_change(change)
        if number in self._here:
            raise Trouble(f"Stock number {number} is in the file twice.")
        if number and (known := self.ledger.row("items", number)) is not None:
            if same_item(known, row):
                return None
            raise Trouble(f"Stock number {number} is in the stock already and says something else.")
        if number:
            self._here.add(number)
        return change

    def _row(self, record: Record) -> Row:
        if len(record.cells) > len(self.columns):
            more = len(record.cells) - len(self.columns)
            if any(cell.strip() for cell in record.cells[-more:]):
                raise Trouble(f"The line has {more} more cells than there are columns.")
        row: Row = {}
        for column, cell in zip(self.columns, record.cells, strict=False):
            if column is None:
                continue
            try:
                column.put(row, unguard(cell))
            except BadWords as bad:
                raise Trouble(f"{column.heading}: {bad}") from None
        if not row:
            raise Trouble("None of its cells is in a column that was recognised.")
        return row


def same_item(one: Row, other: Row) -> bool:
    """Whether two rows say the same of a piece, written out in full or not."""
    return _item(one) == _item(other)


def _item(row: Row) -> Item:
    item = item_from_row(row)
    return replace(item, cover=None) if item.cover == CoverFacts() else item


def _remember(ledger: Ledger, columns: Mapping[str, Column | None], sheet: Sheet) -> None:
    new = {heading: column.heading if column else _SKIP for heading, column in columns.items()}
    headings = {**(ledger.row("settings", _HEADINGS) or {}), **new}
    files = {**(ledger.row("settings", _FILES) or {}), sheet.digest: ledger.clock().date().isoformat()}
    rows = (Change("settings", _HEADINGS, headings), Change("settings", _FILES, files))
    changed = [each for each in rows if each.row != ledger.row("settings", each.key)]
    if changed:
        ledger.note("import remembered", changed)


def _each_once(chosen: Mapping[str, Column | None]) -> None:
    seen: dict[str, str] = {}
    for heading, column in chosen.items():
        if column is None:
            continue
        if column.heading in seen:
            raise BadWords(
                f"{seen[column.heading]!r} and {heading!r} both seem to be the {column.heading}; "
                f"say which with --map {heading!r}=- (to leave it out)."
            )
        seen[column.heading] = heading
