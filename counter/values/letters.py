"""Check letters and the place on the sheet they stand for.

On the line-engraved and most surface-printed stamps the lower left letter counts the row and the lower
right letter the column; A is 1, and I and J are both used. Four-letter stamps carry the same pair
reversed above: KC below is CK above, written CKKC (upper left, upper right, lower left, lower right).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from counter.values.errors import InputError

_FORMAT = re.compile(r"\s*(\d{1,2})\s*[x×by]+\s*(\d{1,2})\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Format:
    """A sheet of so many rows and columns of stamps, at most 26 of each."""

    rows: int
    columns: int

    @property
    def stamps(self) -> int:
        """How many stamps the sheet holds."""
        return self.rows * self.columns

    @property
    def name(self) -> str:
        """As it is written: 20x12, rows first."""
        return f"{self.rows}x{self.columns}"


@dataclass(frozen=True, slots=True)
class Place:
    """A place on a sheet: row and column count from 1 at the top left, `number` runs by rows."""

    row: int
    column: int
    number: int


def read_format(text: str) -> Format:
    """The format of "20x12"; raises InputError."""
    found = _FORMAT.fullmatch(text)
    rows, columns = (int(found[1]), int(found[2])) if found else (0, 0)
    if not (0 < rows <= 26 and 0 < columns <= 26):
        raise InputError(
            f"{text!r} is not a sheet of rows by columns of at most 26: write it like 20x12."
        )
    return Format(rows, columns)


def read_letters(text: str) -> str:
    """Two or four check letters as kept: "k-c" is KC, "CK-KC" is CKKC; raises InputError."""
    letters = re.sub(r"[\s\-./]", "", text).upper()
    if len(letters) not in (2, 4) or not (letters.isascii() and letters.isalpha()):
        raise InputError(f"{text!r} is not two or four check letters: write them like KC or CKKC.")
    return letters


def lower_pair(letters: str) -> str:
    """The two letters that tell the place: the last two."""
    return letters[-2:]


def counts(letters: str) -> tuple[int, int]:
    """Row and column that the lower letters count, whatever the sheet: KC is 11, 3."""
    return ord(letters[-2]) - 64, ord(letters[-1]) - 64


def mirrored(letters: str) -> bool:
    """Whether the upper pair of four letters is the lower pair reversed; two letters always are."""
    return len(letters) == 2 or letters[:2] == letters[:1:-1]


def place(letters: str, sheet: Format) -> Place | None:
    """Where on the sheet, or None when the sheet has no such row or column."""
    row, column = counts(letters)
    if row > sheet.rows or column > sheet.columns:
        return None
    return Place(row, column, (row - 1) * sheet.columns + column)


def letters_at(row: int, column: int, four: bool = False) -> str:
    """The letters of a place, two or four: row 11, column 3 is KC or CKKC."""
    pair = chr(64 + row) + chr(64 + column)
    return pair[::-1] + pair if four else pair


def letters_of_number(number: int, sheet: Format) -> str:
    """The two letters of a running number; raises InputError when the sheet has no such number."""
    if not 1 <= number <= sheet.stamps:
        raise InputError(f"A sheet of {sheet.name} has no stamp number {number}.")
    row, column = divmod(number - 1, sheet.columns)
    return letters_at(row + 1, column + 1)


def spoken(letters: str) -> str:
    """As shown: "K C", or "C K / K C" for four."""
    pairs = [" ".join(pair) for pair in (letters[:-2], lower_pair(letters)) if pair]
    return " / ".join(pairs)
