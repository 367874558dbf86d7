"""A list to choose from: only the lines in view are ever made, so its length does not matter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from textual import events
from textual.message import Message

from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line

T = TypeVar("T")

#: However wide the screen is, the right end of a row stays where the eye still finds it.
WIDEST = 144


class LineList(LineWidget):
    """A scrolling list with a cursor; subclasses give `count()` and `row(index, width, chosen)`.

    The chosen row is marked by a sign as well as by colour. `lines_each` rows of text may stand
    for one entry.
    """

    @dataclass
    class Moved(Message):
        """The cursor is on another row."""

        rows: LineList
        index: int

        @property
        def control(self) -> LineList:
            """The list that sent it."""
            return self.rows

    @dataclass
    class Taken(Message):
        """A row was taken (clicked twice, or the screen's Enter)."""

        rows: LineList
        index: int

        @property
        def control(self) -> LineList:
            """The list that sent it."""
            return self.rows

    top = 0
    cursor = 0

    @property
    def kept_below(self) -> int:
        """How many lines at the bottom a subclass keeps for something else."""
        return 0

    def count(self) -> int:
        """How many rows there are."""
        raise NotImplementedError

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """One row as a line; a leading mark for the chosen one is the row's own business."""
        raise NotImplementedError

    def empty(self) -> str:
        """What stands there when there is no row."""
        return ""

    def line_at(self, y: int, width: int) -> Line:
        """The row in view at this line, or the words for an empty list."""
        index = self.top + y
        if index < self.count():
            return self.row(index, min(width, WIDEST), chosen=index == self.cursor)
        return [(self.empty(), "dim")] if y == 0 and not self.count() else []

    def start_again(self) -> None:
        """New contents: back to the first row."""
        self.top = self.cursor = 0
        self.refresh()

    def move(self, by: int) -> None:
        """Move the cursor, keeping it in view."""
        self.go(self.cursor + by)

    def go(self, index: int) -> None:
        """Put the cursor on a row (nearest there is), keeping it in view."""
        count = self.count()
        if not count:
            self.refresh()  # what stood here before has gone
            return
        height = max(self.size.height - self.kept_below, 1)
        self.cursor = min(max(index, 0), count - 1)
        self.top = min(max(self.top, self.cursor - height + 1), self.cursor)
        self.refresh()
        self.post_message(self.Moved(self, self.cursor))

    def on_click(self, event: events.Click) -> None:
        """One click chooses, a second on the same row takes."""
        index = self.top + event.y
        if index >= self.count() or event.y >= self.size.height - self.kept_below:
            return
        if index == self.cursor and event.chain > 1:
            self.post_message(self.Taken(self, index))
        else:
            self.go(index)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The wheel moves the cursor."""
        event.stop()
        self.move(1)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """The wheel moves the cursor."""
        event.stop()
        self.move(-1)


def mark(chosen: bool, idle: bool = False) -> tuple[str, str]:
    """The sign at the head of a row: an arrow on the chosen one, hollow while the keys move another."""
    if idle:
        return ("▹ ", "dim") if chosen else ("  ", "plain")
    return ("▸ ", "accent") if chosen else ("  ", "plain")


class EntryList(LineList, Generic[T]):
    """Entries drawn by `draw(entry, width)`; the sign of the chosen one is put before it."""

    def __init__(
        self, draw: Callable[[T, int], Line], nothing: str = "", *, id: str | None = None
    ) -> None:
        super().__init__(id=id)
        self.draw = draw
        self.nothing = nothing
        self.entries: Sequence[T] = ()

    def show(self, entries: Sequence[T], *, stay: bool = False) -> None:
        """Other entries, from the first on; `stay` keeps the cursor where it is."""
        self.entries = entries
        if stay and entries:
            self.go(self.cursor)
        elif not stay:
            self.start_again()
        self.refresh()

    @property
    def chosen(self) -> T | None:
        """The entry under the cursor."""
        return self.entries[self.cursor] if self.cursor < len(self.entries) else None

    def count(self) -> int:
        """How many entries."""
        return len(self.entries)

    def empty(self) -> str:
        """The words for no entry."""
        return f"  {self.nothing}" if self.nothing else ""

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """The entry as a line."""
        return [mark(chosen), *self.draw(self.entries[index], max(width - 2, 0))]
