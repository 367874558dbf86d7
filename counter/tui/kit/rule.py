"""A line across the screen that carries a heading."""

from __future__ import annotations

from collections.abc import Callable

from counter.tui.kit.drawn import Drawn
from counter.tui.text import Line


class Rule(Drawn):
    """One heading line, drawn out with a rule; the words may be worked out when it paints."""

    DEFAULT_CSS = "Rule { height: 1; }"

    def __init__(self, words: str | Callable[[], str], *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.words = words

    def line_at(self, y: int, width: int) -> Line:
        """The heading and the rule."""
        words = self.words() if callable(self.words) else self.words
        return [("── ", "dim"), (words, "head"), (" " + "─" * width, "dim")]


class Mark(Drawn):
    """A few fixed cells, such as the sign before a line to type in."""

    DEFAULT_CSS = "Mark { height: 1; width: auto; }"

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words
        self.styles.width = len(words)

    def line_at(self, y: int, width: int) -> Line:
        """The words."""
        return [(self.words, "accent")]
