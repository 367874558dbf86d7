"""The photographs of a piece, one at a time; in their place the path and why they are not shown."""

from __future__ import annotations

from pathlib import Path

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.strip import Strip

from counter.tui.screens.item.pixels import Points, read_points
from counter.tui.widgets.background_job import in_background
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, fit, wrap

_HALF = "▀"
_HEAD = 2  # lines above the picture


class Photograph(LineWidget):
    """Reads the photograph in hand in a thread; `at` is its number, from 0.

    A path without a beginning is looked for in `folder`, beside the data.
    """

    DEFAULT_CSS = "Photograph { height: 1fr; display: none; }"

    def __init__(self, folder: Path) -> None:
        super().__init__(id="photograph")
        self.folder = folder
        self.paths: tuple[str, ...] = ()
        self.at = 0
        self.points: Points | None = None
        self.why = ""

    def show(self, paths: tuple[str, ...]) -> None:
        """The photographs of a piece; the one in hand stays when it is still there."""
        self.paths = paths
        self.at = min(self.at, max(len(paths) - 1, 0))
        self.points, self.why = None, "Being read …"
        self.refresh()
        self.call_after_refresh(self._begin)  # its size is known then

    def turn(self, by: int) -> None:
        """The next photograph, round and round."""
        if self.paths:
            self.at = (self.at + by) % len(self.paths)
            self.show(self.paths)

    def on_resize(self, event: events.Resize) -> None:
        """Fitted anew."""
        if self.paths:
            self._begin()

    def _begin(self) -> None:
        path = self.path
        if path is None or not self.size.height:
            return
        if self.app.no_color or self.app.theme == "sixteen":
            self.why = "This terminal shows too few colours for a photograph."
            self.refresh()
            return
        columns, rows = self.size.width - 4, self.size.height - _HEAD

        def show(points: Points | None, why: str = "") -> None:
            self.points, self.why = points, why
            self.refresh()

        in_background(
            self,
            "photograph",
            lambda: read_points(path, columns, rows),
            then=show,
            failed=lambda sentence: show(None, sentence),
            still=lambda: path == self.path,
        )

    @property
    def path(self) -> Path | None:
        """The file in hand: as noted, or beside the data when the path has no beginning."""
        if not self.paths:
            return None
        noted = self.paths[self.at]
        return Path.home() / noted[2:] if noted.startswith("~/") else self.folder / noted

    def line_at(self, y: int, width: int) -> Line:
        """Which photograph; without a picture its whole path and the reason."""
        if not self.paths:
            words = "  No photograph is noted: Enter, then type the path of one."
            return [(words, "dim")] if y == 1 else []
        noted, room = self.paths[self.at], max(width - 12, 10)
        told: Line = [(f"  {self.at + 1} of {len(self.paths)}  ", "dim")]
        if self.points is not None:
            return [*told, (fit(noted.rpartition("/")[2], room), "plain")] if y == 0 else []
        path, why = wrap(noted, room), wrap(self.why, room)
        if y < len(path):
            return [*(told if y == 0 else [(" " * len(told[0][0]), "plain")]), (path[y], "plain")]
        y -= len(path) + 1
        return [("  ", "plain"), (why[y], "care")] if 0 <= y < len(why) else []

    def render_line(self, y: int) -> Strip:
        """A row of the picture below the heading; words are drawn as everywhere."""
        points, row = self.points, 2 * (y - _HEAD)
        if points is None or not 0 <= row < points.rows:
            return super().render_line(y)
        width = self.size.width
        left = max((width - points.columns) // 2, 0)
        segments = [Segment(" " * left, self.ink("plain"))]
        for column in range(min(points.columns, width)):
            upper = Color.from_rgb(*points.at(column, row))
            lower = Color.from_rgb(*points.at(column, row + 1))
            segments.append(Segment(_HALF, Style(color=upper, bgcolor=lower)))
        segments.append(Segment(" " * max(width - left - points.columns, 0), self.ink("plain")))
        return Strip(segments, width)
