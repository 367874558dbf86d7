"""The line in which a list is narrowed while one types."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal

from counter.tui.kit.entry import Entry
from counter.tui.kit.rule import Mark


class FindRow(Horizontal):
    """A sign and a line to type in; the screen watches the line's value."""

    DEFAULT_CSS = "FindRow { height: 1; background: $surface; } FindRow Entry { width: 1fr; }"

    def __init__(self, hint: str) -> None:
        super().__init__()
        self.hint = hint

    def compose(self) -> ComposeResult:
        """The sign, the line."""
        yield Mark(" find ▸ ")
        yield Entry(placeholder=self.hint, id="filter")
