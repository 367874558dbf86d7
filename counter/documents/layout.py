"""What stands on a paper, before it is a page or a PDF: words, grids and new sheets, in order.

All text is plain text; it is escaped or drawn as it stands by whatever prints it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Style = Literal["plain", "strong", "small", "stamp"]


@dataclass(frozen=True, slots=True)
class TextBlock:
    """Text with its own line breaks; "stamp" is what must not be overlooked: CANCELLED."""

    text: str
    style: Style = "plain"


@dataclass(frozen=True, slots=True)
class TwoBlocks:
    """Two texts side by side: who sells, who buys; one under the other where it is narrow."""

    left: str
    right: str


@dataclass(frozen=True, slots=True)
class Column:
    """A column: `share` of the width that is left; 0 is as wide as its widest cell, never broken."""

    head: str
    share: int = 0
    right: bool = False


@dataclass(frozen=True, slots=True)
class Grid:
    """A table whose headings are repeated on every sheet; `totals` are rows set strong at its end."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    totals: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class NewSheet:
    """What follows begins a sheet of its own, under its own title."""

    title: str


Block = TextBlock | TwoBlocks | Grid | NewSheet


@dataclass(frozen=True, slots=True)
class Layout:
    """A paper: its title, its blocks in order; `foot` stands on every sheet.

    It lies on A4, or across it (`landscape`), or on a roll of 80 mm (`roll`).
    """

    title: str
    blocks: tuple[Block, ...]
    landscape: bool = False
    foot: str = ""
    roll: bool = False


def text_blocks(*texts: str, style: Style = "plain") -> list[Block]:
    """Each text that says anything as a block."""
    return [TextBlock(each, style) for each in texts if each]


def all_text(layout: Layout) -> str:
    """Every word of a paper in one text, in order: what its letters are looked up by."""
    found: list[str] = [layout.title, layout.foot]
    for block in layout.blocks:
        match block:
            case TextBlock(text):
                found.append(text)
            case TwoBlocks(left, right):
                found += [left, right]
            case Grid(columns, rows, totals):
                found += [each.head for each in columns]
                found += [cell for row in (*rows, *totals) for cell in row]
            case NewSheet(title):
                found.append(title)
    return "\n".join(found)
