"""A page to read: lines of spans, wrapped to the width by whoever made them, scrolled by keys."""

from __future__ import annotations

from collections.abc import Callable

from textual import events

from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line

#: Makes the page's lines for a width in cells.
Maker = Callable[[int], list[Line]]


class ScrollPage(LineWidget):
    """Shows what `maker(width)` gives; made again when the width or the contents change."""

    def __init__(self, maker: Maker, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._maker = maker
        self._made: tuple[int, list[Line]] | None = None
        self.top = 0

    def show(self, maker: Maker) -> None:
        """Other contents, from the top."""
        self._maker, self._made, self.top = maker, None, 0
        self.refresh()

    def redraw(self) -> None:
        """The same contents made afresh, staying where the reader is."""
        self._made = None
        self.refresh()

    def lines(self, width: int) -> list[Line]:
        """All lines for this width."""
        if self._made is None or self._made[0] != width:
            self._made = (width, self._maker(width))
        return self._made[1]

    def line_at(self, y: int, width: int) -> Line:
        """The line in view; the last one tells how much more there is below."""
        lines = self.lines(width)
        below = len(lines) - self.top - self.size.height
        if below > 0 and y == self.size.height - 1:
            return [(f"  ↓ {below + 1} more lines (PgDn)", "dim")]
        index = self.top + y
        return lines[index] if index < len(lines) else []

    def turn(self, by: int) -> None:
        """Scroll by lines."""
        most = max(len(self.lines(self.content_size.width)) - self.size.height, 0)
        self.top = min(max(self.top + by, 0), most)
        self.refresh()

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The wheel scrolls."""
        event.stop()
        self.turn(2)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """The wheel scrolls."""
        event.stop()
        self.turn(-2)
