"""The line above the foot where a screen tells what was done, or what is wrong and what to do."""

from __future__ import annotations

from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, wrap


class StatusLine(LineWidget):
    """Takes no room while there is nothing to tell; grows to the sentence's length."""

    DEFAULT_CSS = "StatusLine { height: 1; display: none; background: $surface; }"

    def __init__(self) -> None:
        super().__init__()
        self.words = ""
        self.wrong = False

    def tell(self, words: str, *, wrong: bool = False) -> None:
        """Show a sentence; "" takes it away."""
        self.words, self.wrong = words, wrong
        self.display = bool(words)
        if words:
            self.styles.height = len(self._lines(self.app.size.width))
        self.refresh()

    def _lines(self, width: int) -> list[str]:
        return wrap(self.words, max(width - 4, 10))

    def line_at(self, y: int, width: int) -> Line:
        """The sentence, with a sign when something is wrong."""
        lines = self._lines(width)
        sign = "✗ " if self.wrong else "✓ "
        ink = "bad" if self.wrong else "good"
        if y >= len(lines):
            return []
        return [(f" {sign if y == 0 else '  '}", ink), (lines[y], ink)]
