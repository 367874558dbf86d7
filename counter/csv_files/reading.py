"""The lines of a CSV file as others write them: any of three separators, any common encoding.

A quotation mark that is never closed would swallow the rest of the file; here it costs its own line.
"""

from __future__ import annotations

import csv
import os
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from counter.store.files import os_error_message
from counter.values.errors import UserError

_MOST_LINES = 50  # a cell with more lines than this is a quotation mark gone wrong


@dataclass(frozen=True, slots=True)
class CsvRecord:
    """One record: the line of the file it starts on (1 is the first), its cells, or what is wrong."""

    line: int
    cells: tuple[str, ...]
    wrong: str = ""


@dataclass(frozen=True, slots=True)
class CsvSheet:
    """A CSV file: its lines as text, its separator, and in which encoding it was."""

    lines: tuple[str, ...]
    separator: str
    encoding: str
    digest: str = ""  # SHA-256 of the file: an import remembers it

    def records(self) -> Iterator[CsvRecord]:
        """The records in order; empty lines are left out."""
        at = 0
        while at < len(self.lines):
            record, at = _record(self.lines, at, self.separator)
            if record.wrong or any(cell.strip() for cell in record.cells):
                yield record


def read_sheet(path: Path) -> CsvSheet:
    """The file, its encoding and separator found out. Raises UserError when it cannot be read."""
    if os.path.isdir(path):
        raise UserError(f"{path} is a folder, not a CSV file.")
    if os.path.exists(path) and not os.path.isfile(path):  # one such may never end
        raise UserError(f"{path} is a device, not a CSV file.")
    try:
        raw = path.read_bytes()
    except OSError as fault:
        raise os_error_message(fault, "reading the CSV file", path) from fault
    text, encoding = _decoded(raw)
    if "\n" not in text:  # lines as old Macintosh files end them
        text = text.replace("\r", "\n")
    lines = tuple(text.split("\n"))
    return CsvSheet(lines, _separator(lines), encoding, sha256(raw).hexdigest())


def _decoded(raw: bytes) -> tuple[str, str]:
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return raw.decode("utf-16", errors="replace"), "UTF-16"
    try:
        return raw.decode("utf-8-sig"), "UTF-8"
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace"), "Windows-1252"


def _separator(lines: tuple[str, ...]) -> str:
    """The one of , ; tab that the first line has most of."""
    head = next((line for line in lines if line.strip()), "")
    return max((",", ";", "\t"), key=head.count)


def _record(lines: tuple[str, ...], at: int, separator: str) -> tuple[CsvRecord, int]:
    """The record that starts at line `at`, and the line after it."""
    end = min(len(lines), at + _MOST_LINES)
    try:
        cells, used = _cells(lines, at, end, separator, strict=True)
    except csv.Error as fault:
        if "unexpected end" in str(fault):
            return CsvRecord(at + 1, (), "a quotation mark is opened and never closed"), at + 1
        try:
            cells, used = _cells(lines, at, end, separator, strict=False)
        except csv.Error:
            return CsvRecord(at + 1, (), f"the line cannot be read ({fault})"), at + 1
    return CsvRecord(at + 1, tuple(cells)), at + used


def _cells(
    lines: tuple[str, ...], at: int, end: int, separator: str, *, strict: bool
) -> tuple[list[str], int]:
    reader = csv.reader(
        (f"{lines[number]}\n" for number in range(at, end)), delimiter=separator, strict=strict
    )
    return next(reader, []), reader.line_num
