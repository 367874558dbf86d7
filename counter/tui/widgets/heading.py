"""A line across the screen that carries a heading."""

from __future__ import annotations

from collections.abc import Callable

from rich.cells import cell_len

from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, fit, visible


class Heading(LineWidget):
    """One heading line, drawn out with a rule; the words may be worked out when it paints."""

    DEFAULT_CSS = "Heading { height: 1; }"

    def __init__(self, words: str | Callable[[], str], *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.words = words

    def line_at(self, y: int, width: int) -> Line:
        """The heading and the rule."""
        words = self.words() if callable(self.words) else self.words
        if cell_len(visible(words)) > width - 4:
            words = fit(words, max(width - 4, 0))
        return [("── ", "dim"), (words, "head"), (" " + "─" * width, "dim")]


class Prompt(LineWidget):
    """A few fixed cells, such as the sign before a line to type in."""

    DEFAULT_CSS = "Prompt { height: 1; width: auto; }"

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words
        self.styles.width = len(words)

    def line_at(self, y: int, width: int) -> Line:
        """The words."""
        return [(self.words, "accent")]
