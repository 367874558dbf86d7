"""A line to type in behind a sign that says what it is for."""

from __future__ import annotations

from textual.containers import Horizontal

from counter.tui.widgets.heading import Prompt
from counter.tui.widgets.text_entry import TextEntry


class PromptedEntry(Horizontal):
    """The sign ("find") and the entry of the id given; `hint` stands in it while it is empty."""

    DEFAULT_CSS = (
        "PromptedEntry { height: 1; background: $surface; } PromptedEntry TextEntry { width: 1fr; }"
    )

    def __init__(self, sign: str, hint: str = "", *, entry: str, value: str = "") -> None:
        super().__init__(Prompt(f" {sign} ▸ "), TextEntry(placeholder=hint, value=value, id=entry))
