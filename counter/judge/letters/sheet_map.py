"""The sheet as a small map: rows of cells, some of them marked. Drawn as text, or by a widget."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal

from counter.values.letters import Format, counts, letters_at

Mark = Literal["here", "beside", ""]
_SIGNS: dict[Mark, str] = {"here": "■", "beside": "○", "": "·"}


@dataclass(frozen=True, slots=True)
class Cell:
    """One place of the sheet: its letters, and whether it is a stamp in hand or next to one."""

    row: int
    column: int
    letters: str
    mark: Mark


def sheet_map(letterings: Collection[str], sheet: Format) -> tuple[tuple[Cell, ...], ...]:
    """Every row of the sheet from the top; letterings that it does not have mark nothing."""
    here = {counts(each) for each in letterings}
    beside = {
        (row + down, column + across)
        for row, column in here
        for down, across in ((0, 1), (0, -1), (1, 0), (-1, 0))
    }
    return tuple(
        tuple(
            Cell(row, column, letters_at(row, column), _mark((row, column), here, beside))
            for column in range(1, sheet.columns + 1)
        )
        for row in range(1, sheet.rows + 1)
    )


def _mark(at: tuple[int, int], here: set[tuple[int, int]], beside: set[tuple[int, int]]) -> Mark:
    if at in here:
        return "here"
    return "beside" if at in beside else ""


def drawn(cells: tuple[tuple[Cell, ...], ...]) -> list[str]:
    """The map as lines of text, two characters a stamp: letters along the top and down the side."""
    head = "  " + " ".join(cell.letters[1] for cell in cells[0])
    return [head, *(f"{row[0].letters[0]} " + " ".join(_SIGNS[c.mark] for c in row) for row in cells)]
