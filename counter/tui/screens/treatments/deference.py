"""The words that stand under every answer on a treatment, whatever else is scrolled away."""

from __future__ import annotations

from textual import events

from counter.judge.treat.plan import DEFERENCE
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, wrap


class Deference(LineWidget):
    """As many lines as the words need."""

    DEFAULT_CSS = "Deference { height: 2; }"

    def on_resize(self, event: events.Resize) -> None:
        """One line where there is room."""
        self.styles.height = len(self._lines(event.size.width))

    def _lines(self, width: int) -> list[str]:
        return wrap(DEFERENCE, max(width - 4, 20))

    def line_at(self, y: int, width: int) -> Line:
        """The words, dimly."""
        lines = self._lines(width)
        return [("  " + lines[y], "dim")] if y < len(lines) else []
