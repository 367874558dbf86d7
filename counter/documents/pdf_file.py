"""A paper as a PDF file: A4, or a roll of 80 mm as long as it needs; its font travels in it.

Lines are broken at spaces alone, so that a stock number or a date is never in two parts.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from pathlib import Path
from typing import Literal

from fpdf import FPDF
from fpdf.enums import XPos, YPos
from fpdf.fonts import TTFFont

from counter.documents.layout import (
    Block,
    Column,
    Grid,
    Layout,
    NewSheet,
    TextBlock,
    TwoBlocks,
    all_text,
)

_FONTS = Path(__file__).parent / "fonts"
_FAMILY = "paper"
_ROLL = 80.0  # mm wide, of which a printer reaches 72
_SIZES = {"plain": 10.0, "strong": 10.0, "small": 8.0, "stamp": 15.0}
_LEADING = 1.15
_MM = 25.4 / 72  # a point in mm


class _Sheets(FPDF):
    """The sheets being drawn: what stands at the foot of each, and the measures of this paper."""

    def __init__(self, layout: Layout, length: float) -> None:
        self.roll = layout.roll
        self.said = layout.foot or layout.title
        self.drawn = 0.0  # how far down a roll is drawn
        across: Literal["L", "P"] = "L" if layout.landscape and not self.roll else "P"
        super().__init__(across, "mm", (_ROLL, length) if self.roll else "a4")
        self.add_font(_FAMILY, "", _FONTS / "DejaVuSansCondensed.ttf")
        self.add_font(_FAMILY, "B", _FONTS / "DejaVuSansCondensed-Bold.ttf")
        margin = 4.0 if self.roll else 10.0 if layout.landscape else 18.0
        self.set_margins(margin, margin)
        self.set_auto_page_break(False)
        self.c_margin = 1.0 if not layout.landscape else 0.7
        self.bottom = length if self.roll else self.h - 12
        self.scale = 0.85 if self.roll else 0.63 if layout.landscape else 1.0
        self.set_title(layout.title)
        self.set_lang("en-GB")
        self.set_creator("counter")

    def footer(self) -> None:
        """The paper's name and the sheet's number; a roll has one sheet and no foot."""
        if self.roll:
            return
        self.set_font(_FAMILY, "", 7)
        self.set_xy(self.l_margin, self.h - 11)
        self.cell(self.epw / 2, 4, self.said)
        self.cell(self.epw / 2, 4, f"Page {self.page_no()} of {{nb}}", align="R")

    def style(self, strong: bool = False, size: float = 10.0) -> float:
        """Take a font; the height of its line in mm."""
        self.set_font(_FAMILY, "B" if strong else "", size * self.scale)
        return size * self.scale * _MM * _LEADING

    def room(self, height: float) -> bool:
        """Whether so many mm are left on this sheet."""
        return self.y + height <= self.bottom

    def put(self, text: str, x: float, width: float, height: float, right: bool = False) -> None:
        """One line of text at a place; the pen stays on its line."""
        self.set_x(x)
        align = "R" if right else "L"
        self.cell(width, height, text, align=align, new_x=XPos.RIGHT, new_y=YPos.TOP)

    def broken(self, text: str, width: float) -> list[str]:
        """Text in lines that fit, broken at spaces; a word wider than that alone in pieces."""
        fits = width - 2 * self.c_margin
        found: list[str] = []
        for row in text.split("\n"):
            line = ""
            for word in row.split(" "):
                for part in self._parts(word, fits):
                    longer = f"{line} {part}" if line else part
                    if line and self.get_string_width(longer) > fits:
                        found.append(line)
                        longer = part
                    line = longer
            found.append(line)
        return found

    def _parts(self, word: str, fits: float) -> list[str]:
        if self.get_string_width(word) <= fits:
            return [word]
        parts, part = [], ""
        for letter in word:
            if part and self.get_string_width(part + letter) > fits:
                parts.append(part)
                part = ""
            part += letter
        return [*parts, part]


def pdf_of(layout: Layout) -> bytes:
    """The paper as a PDF file."""
    length = 297.0
    if layout.roll:
        length = max(60.0, _draw(layout, 10_000.0).drawn + 6)
    return bytes(_draw(layout, length).output())


@cache
def _letters() -> frozenset[int]:
    font = _Sheets(Layout("", ()), 297.0).fonts[_FAMILY]
    return frozenset(font.cmap) if isinstance(font, TTFFont) else frozenset()


def not_printable(layout: Layout) -> str:
    """The letters on a paper that the PDF's font does not have, once each; "" mostly."""
    return "".join(
        dict.fromkeys(each for each in all_text(layout) if each > " " and ord(each) not in _letters())
    )


def _draw(layout: Layout, length: float) -> _Sheets:
    sheets = _Sheets(layout, length)
    sheets.add_page()
    _title(sheets, layout.title)
    for block in layout.blocks:
        _draw_block(sheets, block)
    sheets.drawn = sheets.y
    return sheets


def _title(sheets: _Sheets, title: str) -> None:
    _text(sheets, title, strong=True, size=16.0)
    sheets.ln(2)


def _draw_block(sheets: _Sheets, block: Block) -> None:
    match block:
        case TextBlock(text, style):
            _text(sheets, text, strong=style in ("strong", "stamp"), size=_SIZES[style])
            sheets.ln(2.5 * sheets.scale)
        case TwoBlocks(left, right) if sheets.roll:
            for each in filter(None, (left, right)):
                _text(sheets, each)
                sheets.ln(2)
        case TwoBlocks(left, right):
            top, half = sheets.y, sheets.epw / 2
            _text(sheets, left, half)
            under = sheets.y
            sheets.y = top
            _text(sheets, right, half, sheets.l_margin + half)
            sheets.y = max(under, sheets.y) + 4
        case NewSheet(title):
            if not sheets.roll:
                sheets.add_page()
            _title(sheets, title)
        case Grid(columns, rows, totals) if sheets.roll:
            _stack(sheets, columns, rows, totals)
        case Grid(columns, rows, totals):
            _Table(sheets, columns, rows, totals).draw()


def _text(
    sheets: _Sheets,
    text: str,
    width: float = 0.0,
    x: float = 0.0,
    *,
    strong: bool = False,
    size: float = 10.0,
) -> None:
    height = sheets.style(strong, size)
    width = width or sheets.epw
    for each in sheets.broken(text, width):
        if not sheets.room(height):
            sheets.add_page()
            sheets.style(strong, size)
        sheets.put(each, x or sheets.l_margin, width, height)
        sheets.ln(height)


def _stack(
    sheets: _Sheets,
    columns: Sequence[Column],
    rows: Iterable[Sequence[str]],
    totals: Iterable[Sequence[str]],
) -> None:
    """On a roll a row is a few lines: what is broken nowhere on one of them, the words beneath."""
    for row, strong in [*((each, False) for each in rows), *((each, True) for each in totals)]:
        cells = list(zip(columns, row, strict=True))
        short = [cell for column, cell in cells if not column.share and not column.right and cell]
        sums = [cell for column, cell in cells if column.right and cell]
        words = [cell for column, cell in cells if column.share and cell]
        height = sheets.style(strong or bool(short))
        sheets.put("  ".join(short or words[:1]), sheets.l_margin, sheets.epw * 0.6, height)
        if sums:
            sheets.put(sums[-1], sheets.l_margin, sheets.epw, height, right=True)
        sheets.ln(height)
        for each in words if short else words[1:]:
            _text(sheets, each, size=9.0)
        sheets.ln(1)
    sheets.ln(2)


class _Table:
    """A grid over as many sheets as it needs, its headings at the top of each."""

    def __init__(
        self,
        sheets: _Sheets,
        columns: Sequence[Column],
        rows: Sequence[Sequence[str]],
        totals: Sequence[Sequence[str]],
    ) -> None:
        self.sheets = sheets
        self.columns = columns
        self.rows = rows
        self.totals = totals
        self.widths = self._measured()

    def _measured(self) -> list[float]:
        """Columns that are never broken take their widest cell; the rest share what is left."""
        sheets = self.sheets
        found = []
        for place, column in enumerate(self.columns):
            strong = column.head.split(" ")
            plain: list[str] = []
            if not column.share:
                strong += [row[place] for row in self.totals]
                plain = [part for row in self.rows for part in row[place].split("\n")]
            sheets.style(True)
            widest = max(map(sheets.get_string_width, strong))
            sheets.style()
            widest = max(widest, max(map(sheets.get_string_width, plain), default=0.0))
            found.append(widest + 2 * sheets.c_margin + 0.5)
        pairs = list(zip(found, self.columns, strict=True))
        shares = sum(each.share for each in self.columns)
        left = sheets.epw - sum(width for width, each in pairs if not each.share)
        return [
            max(width, left * each.share / shares) if each.share else width for width, each in pairs
        ]

    def draw(self) -> None:
        """Heads, rows, totals."""
        self._row([each.head for each in self.columns], strong=True, heads=True)
        for row in self.rows:
            self._row(row)
        for row in self.totals:
            self._row(row, strong=True)
        self.sheets.ln(4 * self.sheets.scale)

    def _row(self, row: Sequence[str], *, strong: bool = False, heads: bool = False) -> None:
        sheets = self.sheets
        height = sheets.style(strong)
        cells = [sheets.broken(cell, width) for cell, width in zip(row, self.widths, strict=True)]
        most = int((sheets.bottom - 60) / height)
        if max(map(len, cells)) > most:  # taller than a sheet
            self._row(["\n".join(cell[:most]) for cell in cells], strong=strong)
            self._row(["\n".join(cell[most:]) for cell in cells], strong=strong)
            return
        tall = max(map(len, cells)) * height
        if not heads and not sheets.room(tall + 0.5):
            sheets.add_page()
            self._row([each.head for each in self.columns], strong=True, heads=True)
            sheets.style(strong)
        top = sheets.y
        x = sheets.l_margin
        for cell, width, column in zip(cells, self.widths, self.columns, strict=True):
            for place, each in enumerate(cell):
                sheets.y = top + place * height
                sheets.put(each, x, width, height, column.right)
            x += width
        sheets.y = top + tall + 0.5
        sheets.set_line_width(0.3 if heads else 0.1)
        sheets.line(sheets.l_margin, sheets.y - 0.3, sheets.l_margin + sheets.epw, sheets.y - 0.3)
