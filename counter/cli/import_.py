"""`counter import FILE`: a stock list from a CSV file, in any order of columns."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from dataclasses import asdict

from counter.cli.call import Call, Reply
from counter.cli.place import open_ledger
from counter.csv_files.importing import Imported, import_stock
from counter.csv_files.reading import read_sheet
from counter.desk.data.messages import imported_words
from counter.values.errors import InputError
from counter.values.paths import path_of

_SHOWN = 40


def arguments(parser: ArgumentParser) -> None:
    """The file, a trial run, and which column is which."""
    parser.add_argument("file", metavar="FILE", help="a CSV file whose first line names the columns")
    parser.add_argument("--dry-run", action="store_true", help="only say what would come in")
    parser.add_argument("--again", action="store_true", help="a file that came in before, once more")
    parser.add_argument(
        "--map",
        action="append",
        default=[],
        metavar="HEADING=COLUMN",
        help='what a column of the file is, e.g. --map "Plate no.=plate"; "-" leaves it out',
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{taken, known, refused: [{line, why}], mapping, stopped, dry_run, encoding}."""
    said = dict(_pair(each) for each in chosen.map)
    sheet = read_sheet(path_of(chosen.file))
    with open_ledger(call) as ledger:
        show = _progress if sys.stderr.isatty() else _quiet
        done = import_stock(
            ledger, sheet, said=said, dry_run=chosen.dry_run, again=chosen.again, progress=show
        )
    data = {**asdict(done), "encoding": sheet.encoding}
    return Reply(data, _words(done, sheet.encoding), 1 if done.refused and not done.taken else 0)


def _pair(text: str) -> tuple[str, str]:
    heading, equals, column = text.rpartition("=")
    if not equals:
        raise InputError(f"--map wants HEADING=COLUMN, not {text!r}.")
    return heading.strip(), column.strip()


def _words(done: Imported, encoding: str) -> str:
    lines = [imported_words(done), f"The file is in {encoding}."]
    left = [heading for heading, column in done.mapping.items() if column == "-"]
    if left:
        lines.append(f"Columns left out: {', '.join(left)}.")
    lines += [f"  line {each.line} came in, {each.why}" for each in done.odd[:_SHOWN]]
    shown = done.refused if done.dry_run else done.refused[:_SHOWN]
    lines += [f"  line {each.line}: {each.why}" for each in shown]
    if len(shown) < len(done.refused):
        lines.append(f"  ... and {len(done.refused) - len(shown):,} more; --dry-run lists them all.")
    return "\n".join(lines)


def _progress(done: int, total: int) -> bool:
    share = done * 40 // max(total, 1)
    end = "\n" if done + 1 >= total else ""
    print(f"\r[{'#' * share:<40}] {done:,} of {total:,} lines", end=end, file=sys.stderr, flush=True)
    return True


def _quiet(done: int, total: int) -> bool:
    return True
