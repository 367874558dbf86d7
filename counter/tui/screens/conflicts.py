"""Rows that two laptops both changed: the versions side by side, one of them chosen."""

from __future__ import annotations

from itertools import zip_longest

from textual.app import ComposeResult

from counter.desk.data.merge_conflicts import MergeConflict, open_conflicts, row_words, settle_for
from counter.tui.widgets.action import Action, Help, back, pages, steps, take_back
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, fit, wrap
from counter.values.errors import UserError

_LABEL = 16
_WIDEST = 48  # cells of a version: wider columns are harder to compare


class ConflictsScreen(BaseScreen):
    """The list above, the versions of the chosen one below."""

    NAME = "conflicts"
    # fmt: off
    ACTIONS = (
        Action("first", "1", "first holds", "The first version holds: what stands here.",
               "settle choose here ours", foot=1),
        Action("second", "2", "second", "The second version holds.", "settle choose theirs other",
               foot=2),
        Action("third", "3", "third", "The third version holds, where there is one.", "settle choose"),
        *steps("row that both changed", before="one"),
        *pages("Further down the versions.", "Further up the versions.",
               labels=("further", "page back")),
        take_back(foot=3),
        back("Back to your data."),
    )
    # fmt: on
    ABOUT = Help(
        "what both laptops changed",
        (
            "Both versions stand side by side; only what differs is shown. Yours stands in the books "
            "until you settle it. 1 or 2 says which holds; Ctrl+T takes that back.",
            "The same piece sold on both laptops: both sales stay in the book whichever version of the "
            "piece holds. Put the wrong sale right by a refund.",
        ),
    )

    def __init__(self) -> None:
        super().__init__()
        self.open: tuple[MergeConflict, ...] = ()

    def body(self) -> ComposeResult:
        """The list, the versions."""
        yield Heading(self._head)
        yield BothRows(self)
        yield Heading("The versions, where they differ")
        yield ScrollPage(self._lines)

    def on_mount(self) -> None:
        """Read what waits."""
        self.redraw()

    def _head(self) -> str:
        return f"Changed on both: {len(self.open):,} to settle"

    def redraw(self) -> None:
        """What waits now."""
        self.open = open_conflicts(self.app.desk.ledger) if self.app.desk else ()
        rows = self.query_one(BothRows)
        rows.styles.height = min(max(len(self.open), 1), 8)
        rows.go(min(rows.cursor, max(len(self.open) - 1, 0)))
        rows.refresh()
        self.query_one(Heading).refresh()
        self.query_one(ScrollPage).show(self._lines)

    @property
    def chosen(self) -> MergeConflict | None:
        """The one in hand."""
        cursor = self.query_one(BothRows).cursor
        return self.open[cursor] if cursor < len(self.open) else None

    def _lines(self, width: int) -> list[Line]:
        return versions(self.chosen, width) if self.chosen else []

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another one: its versions."""
        event.stop()
        self.query_one(ScrollPage).show(self._lines)

    def _settle(self, place: int) -> None:
        both, desk = self.chosen, self.app.desk
        if both is None or desk is None or place >= len(both.sides):
            self.say("There is no such version.", wrong=True)
            return
        side = both.sides[place]
        try:
            settle_for(desk.ledger, both.id, side.name)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.redraw()
        self.say(f"Settled: {both.key} is as {'it stands here' if place == 0 else side.told}.")

    def do_first(self) -> None:
        """What stands here holds."""
        self._settle(0)

    def do_second(self) -> None:
        """The second version holds."""
        self._settle(1)

    def do_third(self) -> None:
        """The third version holds."""
        self._settle(2)


class BothRows(LineList):
    """What waits for a word."""

    def __init__(self, sheet: ConflictsScreen) -> None:
        super().__init__()
        self.sheet = sheet

    def count(self) -> int:
        """How many."""
        return len(self.sheet.open)

    def empty(self) -> str:
        """All settled."""
        return "  Nothing is left to settle."

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Its title."""
        desk = self.sheet.app.desk
        title = self.sheet.open[index].title(desk.names if desk else {})
        return [mark(chosen), (fit(title, width - 2), "strong" if chosen else "plain")]


def versions(both: MergeConflict, width: int) -> list[Line]:
    """The versions in columns: whose they are, then every field that differs, in words."""
    room = min(max((width - _LABEL - 2) // len(both.sides) - 2, 10), _WIDEST)
    heads = tuple(f"{place} {side.told}" for place, side in enumerate(both.sides, 1))
    lines: list[Line] = []
    if both.sold:
        words = (
            f"Sold {len(both.sold)} times: {'; '.join(both.sold)}. Only one can hold: settle this, "
            "refund the other (F8 at the counter, then F7), and set the piece to sold again."
        )
        lines += [[], *prose(words, width, "bad", head=("  ! ", "bad"))]
    lines += [[], *_row("", heads, room, "strong"), []]
    for label, values in both.differing:
        lines += _row(label, values, room, "plain")
    if not both.differing:
        lines += _row("row", tuple(row_words(side.row) for side in both.sides), room, "plain")
        lines += [[], [("  They say the same; choose either to close it.", "dim")]]
    return lines


def _row(label: str, cells: tuple[str, ...], room: int, ink: str) -> list[Line]:
    columns = [wrap(cell, room) for cell in cells]
    lines: list[Line] = []
    for number, parts in enumerate(zip_longest(*columns, fillvalue="")):
        line: Line = [(f"  {fit(label if number == 0 else '', _LABEL)}", "dim")]
        for part in parts:
            line.append((fit(part, room) + "  ", ink))
        lines.append(line)
    return lines
