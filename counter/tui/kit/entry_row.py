"""A line to type in behind a sign that says what it is for."""

from __future__ import annotations

from textual.containers import Horizontal

from counter.tui.kit.entry import Entry
from counter.tui.kit.rule import Mark


class EntryRow(Horizontal):
    """The sign ("find") and the entry of the id given; `hint` stands in it while it is empty."""

    DEFAULT_CSS = "EntryRow { height: 1; background: $surface; } EntryRow Entry { width: 1fr; }"

    def __init__(self, sign: str, hint: str = "", *, entry: str, value: str = "") -> None:
        super().__init__(Mark(f" {sign} ▸ "), Entry(placeholder=hint, value=value, id=entry))
