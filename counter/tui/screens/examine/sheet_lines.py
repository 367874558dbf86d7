"""The sheet drawn as a small map: a sign a stamp, letters along the top and down the side."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from counter.judge.letters import Cell
from counter.tui.widgets.text import Line, Span
from counter.values.letters import counts

_SIGNS: dict[str, Span] = {"here": ("■", "accent"), "beside": ("○", "strong"), "": ("·", "dim")}
_LEAST_TEXT = 44  # so many cells are kept for the words beside the map


def map_lines(
    cells: tuple[tuple[Cell, ...], ...],
    letterings: tuple[str, ...],
    width: int,
    held: Mapping[str, Collection[str]],
) -> Iterator[Line]:
    """The sheet, a sign a stamp, row by row; the letters of those in hand stand out. Of what is `held`
    of this plate in stock (by letters) a place shows ▪, or how many there are."""
    rows = {counts(each)[0] for each in letterings}
    columns = {counts(each)[1] for each in letterings}
    gap = " " if 2 * len(cells[0]) + 5 + _LEAST_TEXT <= width else ""
    head: Line = [("    ", "plain")]
    for cell in cells[0]:
        head.append((cell.letters[1] + gap, "accent" if cell.column in columns else "dim"))
    yield head
    for row in cells:
        side = row[0]
        line: Line = [(f"  {side.letters[0]} ", "accent" if side.row in rows else "dim")]
        for cell in row:
            sign, ink = _SIGNS[cell.mark]
            count = len(held.get(cell.letters, ()))
            if count and cell.mark == "beside":
                ink = "good"
            elif count and not cell.mark:
                sign, ink = ("▪" if count == 1 else str(min(count, 9))), "good"
            line.append((sign + gap, ink))
        yield line
