"""Do places on a sheet adjoin, and as what: pair, strip, block, irregular block."""

from __future__ import annotations

from collections.abc import Collection

Square = tuple[int, int]


def adjoins(places: Collection[Square]) -> bool:
    """Whether every stamp is joined to the rest by an edge; corners do not join."""
    left = set(places)
    if not left or len(left) != len(places):
        return False
    reached = [left.pop()]
    for row, column in reached:
        for beside in ((row, column - 1), (row, column + 1), (row - 1, column), (row + 1, column)):
            if beside in left:
                left.remove(beside)
                reached.append(beside)
    return not left


def shape_of(places: Collection[Square]) -> str:
    """The shape in plain words: "horizontal pair", "vertical strip of 3", "block of 4".

    A shape that fills no rectangle is an irregular block.
    """
    count = len(places)
    if count == 1:
        return "single"
    if not adjoins(places):
        return "not adjoining"
    rows, columns = {row for row, _ in places}, {column for _, column in places}
    if len(rows) == 1 or len(columns) == 1:
        way = "horizontal" if len(rows) == 1 else "vertical"
        return f"{way} pair" if count == 2 else f"{way} strip of {count}"
    if len(rows) * len(columns) == count:
        return f"block of {count}" + (f" ({len(rows)} rows of {len(columns)})" if count > 4 else "")
    return f"irregular block of {count}"


def why_not_adjoining(places: Collection[Square], columns: int) -> str:
    """Why two places that do not adjoin may seem to."""
    if len(places) != 2:
        return "not every stamp touches the others by an edge"
    (row, column), (other_row, other_column) = sorted(places)
    if (row, column) == (other_row, other_column):
        return "both name the same place: a sheet has it once"
    if other_row - row == 1 and (column, other_column) == (columns, 1):
        return "the end of one row and the start of the next do not touch"
    if other_row - row == 1 and abs(column - other_column) == 1:
        return "diagonal neighbours touch only at a corner"
    return "they stand apart on the sheet"
