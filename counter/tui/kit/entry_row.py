"""A line to type in behind a sign that says what it is for."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal

from counter.tui.kit.entry import Entry
from counter.tui.kit.rule import Mark


class EntryRow(Horizontal):
    """The sign ("find") and the entry of the id given; `hint` stands in it while it is empty."""

    DEFAULT_CSS = "EntryRow { height: 1; background: $surface; } EntryRow Entry { width: 1fr; }"

    def __init__(self, sign: str, hint: str, *, entry: str) -> None:
        super().__init__()
        self.sign = sign
        self.hint = hint
        self.entry = entry

    def compose(self) -> ComposeResult:
        """The sign, the line."""
        yield Mark(f" {self.sign} ▸ ")
        yield Entry(placeholder=self.hint, id=self.entry)
