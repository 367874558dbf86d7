"""The panes of a stock list: what it holds and what would come of it, and the refused lines."""

from __future__ import annotations

from counter.csv_files.importing import Refused
from counter.csv_files.mapping import SKIP
from counter.desk.data.messages import imported_words
from counter.tui.screens.import_stock.looking import LookedOver
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.text import Line, fit, wrap
from counter.values.dates import day_words

ABOUT = (
    "Type the path of a CSV file; Tab completes it, Enter looks it over. Nothing is noted before you "
    "have seen what would come in and what would not."
)


class RefusedRows(LineList):
    """The refused lines, each with its number and the reason."""

    def __init__(self) -> None:
        super().__init__()
        self.refused: tuple[Refused, ...] = ()

    def show(self, refused: tuple[Refused, ...]) -> None:
        """Other lines, from the first."""
        self.refused = refused
        self.start_again()

    def count(self) -> int:
        """How many."""
        return len(self.refused)

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """The line's number and the reason, cut to the width."""
        each = self.refused[index]
        head = f"line {each.line:,}  "
        why = fit(each.why, max(width - 2 - max(len(head), 14), 0))
        return [mark(chosen), (f"{head:<14}", "care"), (why, "strong" if chosen else "plain")]


class Whole(LineWidget):
    """The chosen refused line with its whole reason."""

    DEFAULT_CSS = "Whole { height: 2; }"

    def __init__(self, rows: RefusedRows) -> None:
        super().__init__()
        self.rows = rows

    def line_at(self, y: int, width: int) -> Line:
        """The reason, wrapped."""
        if self.rows.cursor >= self.rows.count():
            return []
        lines = wrap(self.rows.refused[self.rows.cursor].why, width - 4)
        return [(f"  {lines[y]}", "dim")] if y < len(lines) else []


def looked_over_lines(found: LookedOver, width: int) -> list[Line]:
    """What would come of the list, or what came; what each column is taken for."""
    done = found.done
    lines: list[Line] = [[]]
    if done is None:
        words = "No column was recognised: F4 says what they are."
        lines += prose(words, width, "care", head=("  ! ", "care"))
    else:
        ink = "strong" if done.dry_run or not done.taken else "good"
        sign = "  " if done.dry_run else "✓ "
        lines += prose(imported_words(done), width, ink, head=(f"  {sign}", ink))
    if found.before and (done is None or done.dry_run):
        lines += prose(_before_words(found), width, "care", head=("    ", "plain"))
    return [*lines, *_columns(found, width)]


def _before_words(found: LookedOver) -> str:
    before = found.before
    if before is None:
        return ""
    far = "" if before.upto is None else f", up to line {before.upto:,}"
    words = f"This very file came in on {day_words(before.day)}{far}."
    if found.again:
        return f"{words} Its lines without a stock number come in once more (F5: not)."
    return f"{words} Its lines without a stock number stay out (F5: take them once more)."


def _columns(found: LookedOver, width: int) -> list[Line]:
    """What each column is taken for, and which are left out."""
    taken = [
        heading if heading.casefold() == name else f"{heading} = {name}"
        for heading, name in found.columns.items()
        if name != SKIP
    ]
    left = [heading or "(no name)" for heading, name in found.columns.items() if name == SKIP]
    lines = prose(", ".join(taken) or "none", width, head=("    columns   ", "dim"))
    if left:
        lines += prose(", ".join(left), width, "care", head=("    left out  ", "dim"))
    return lines
