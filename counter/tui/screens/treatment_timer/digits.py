"""Large figures drawn with blocks: a clock that can be read with both hands in gloves."""

from __future__ import annotations

from textual import events

from counter.trade.treatment_clock import Countdown
from counter.tui.screens.treatment_timer.telling import bar_line
from counter.tui.widgets.app_services import AppServices
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, two_ends

_DRAWN = {
    "0": ("###", "# #", "# #", "# #", "###"),
    "1": (" # ", "## ", " # ", " # ", "###"),
    "2": ("###", "  #", "###", "#  ", "###"),
    "3": ("###", "  #", "###", "  #", "###"),
    "4": ("# #", "# #", "###", "  #", "  #"),
    "5": ("###", "#  ", "###", "  #", "###"),
    "6": ("###", "#  ", "###", "# #", "###"),
    "7": ("###", "  #", "  #", "  #", "  #"),
    "8": ("###", "# #", "###", "# #", "###"),
    "9": ("###", "# #", "###", "  #", "###"),
    ":": (" ", "#", " ", "#", " "),
    "+": ("   ", " # ", "###", " # ", "   "),
}
_HIGH = 5
#: Smallest size: five rows on the screen, two half rows for each dot.
_LEAST = 2
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


def large(text: str, width: int, height: int) -> list[str]:
    """The text (figures, colon, plus) in lines, as large as fits, centred; never below five rows.

    A dot of the drawing is as many cells wide as it is half rows high, so it looks square.
    """
    dots = _dots(text)
    size = max(min(width // len(dots[0]), 2 * height // _HIGH), _LEAST)
    rows = [[dot for dot in row for _ in range(size)] for row in dots for _ in range(size)]
    if len(rows) % 2:
        rows.append([False] * len(rows[0]))
    left = " " * max((width - len(rows[0])) // 2, 0)
    return [
        left + "".join(_HALVES[pair] for pair in zip(upper, lower, strict=True)).rstrip()
        for upper, lower in zip(rows[::2], rows[1::2], strict=True)
    ]


def _dots(text: str) -> list[list[bool]]:
    glyphs = [_DRAWN[letter] for letter in text]
    return [[dot == "#" for dot in " ".join(glyph[y] for glyph in glyphs)] for y in range(_HIGH)]


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
