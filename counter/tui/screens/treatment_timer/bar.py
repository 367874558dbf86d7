"""The line at the very top of every screen while a bath runs."""

from __future__ import annotations

from textual import events

from counter.trade.treatment_clock import Countdown
from counter.tui.screens.treatment_timer.telling import bar_line
from counter.tui.widgets.app_services import AppServices
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, two_ends


class BathBar(LineWidget):
    """Shows the most pressing bath; a click opens the baths."""

    app: AppServices
    DEFAULT_CSS = "BathBar { height: 1; dock: top; background: $surface; }"

    def __init__(self, running: tuple[Countdown, ...]) -> None:
        super().__init__()
        self.shown: tuple[Line, Line] = bar_line(running, True)

    def tell(self, running: tuple[Countdown, ...], beat: bool) -> None:
        """The time goes on; painted only when its words change."""
        line = bar_line(running, beat)
        if line != self.shown:
            self.shown = line
            self.refresh()

    def line_at(self, y: int, width: int) -> Line:
        """What it is on the left, how it stands on the right."""
        return two_ends(*self.shown, width)

    def on_click(self, event: events.Click) -> None:
        """To the baths."""
        event.stop()
        self.app.action_do("baths")
