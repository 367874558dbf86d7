"""Two candidates in columns: what parts them first and its proof on top, then row by row."""

from __future__ import annotations

from itertools import zip_longest

from counter.judge.identify import Compared, SideBySide, side_by_side
from counter.tui.screens.examine.state import Looking
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.text import Line, fit, wrap

_LABEL = 18


def beside_page(looking: Looking, width: int) -> list[Line]:
    """The chosen candidate beside the first, or the first beside the next."""
    board = looking.board
    asked, chosen = board.asked, board.chosen_issue
    other = 0 if chosen else 1
    if asked is None or max(chosen, other) >= len(board.candidates):
        return prose("There are no two to compare: the line leaves one or none.", width, "dim")
    stamps = asked.workspace.library.stamps
    left, right = (board.candidates[each].issue_id for each in (chosen, other))
    return _page(side_by_side(left, right, asked.reading, stamps), width)


def _page(found: SideBySide, width: int) -> list[Line]:
    column = max((width - _LABEL - 3) // 2, 8)
    lines = _columns("", found.names[0], found.names[1], column, "strong")
    if found.first:
        first = f"{found.first.how} ({found.first.seconds:.0f} s)"
        lines += prose(first, width, head=("  look first: ", "head"))
    else:
        lines += prose("nothing on the stamp itself parts them", width, "care")
    lines += _columns("proof", found.proof_of_left, found.proof_of_right, column, "good")
    for each in found.told:
        lines += prose(each, width, "dim", head=("  told apart: ", "head"))
    rows = sorted(found.rows, key=lambda row: (not row.parts, row.left == row.right))
    for row in rows:
        lines += _row(row, column)
    return lines


def _row(row: Compared, column: int) -> list[Line]:
    ink = "accent" if row.parts else "plain" if row.left != row.right else "dim"
    label = f"{'≠' if row.parts else ' '} {row.label}"
    return _columns(label, row.left or "?", row.right or "?", column, ink)


def _columns(label: str, left: str, right: str, column: int, ink: str) -> list[Line]:
    ours, theirs = wrap(left, column), wrap(right, column)
    lines: list[Line] = []
    for place, (mine, other) in enumerate(zip_longest(ours, theirs, fillvalue="")):
        head = label if place == 0 else ""
        lines.append([(f"  {fit(head, _LABEL - 2)} ", "head"), (fit(mine, column), ink)])
        lines[-1] += [("  ", "plain"), (other, ink)]
    return lines
