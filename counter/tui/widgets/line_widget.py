"""A widget drawn line by line: the quickest thing a terminal can show.

A subclass says what stands on line `y` as spans of (text, ink); the base cuts or fills the line to
its width and turns ink names into the theme's colours. Colour only helps: words and signs carry the
meaning, so the inks may all be alike.
"""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from counter.tui.widgets.styles import ink_on
from counter.tui.widgets.text import Line, visible


class LineWidget(Widget):
    """Base of all line-drawn widgets; override `line_at`."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "LineWidget { height: 1fr; }"

    def line_at(self, y: int, width: int) -> Line:
        """What stands on line `y` of the widget, at most `width` cells."""
        raise NotImplementedError

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._inks: dict[str, Style] = {}

    @property
    def screenful(self) -> int:
        """How many lines a page key moves by: all in view but one, so that the eye finds its place."""
        return max(self.size.height - 1, 1)

    def ink(self, name: str) -> Style:
        """The terminal style of an ink."""
        if name not in self._inks:
            self._inks[name] = ink_on(self.app, name, self.background_colors[1])
        return self._inks[name]

    def notify_style_update(self) -> None:
        """The theme changed: the inks are looked up anew."""
        self._inks.clear()
        super().notify_style_update()

    def render_lines(self, crop: Region) -> list[Strip]:
        """Every line in view. These widgets have no border and no padding, so the framework's
        general way of putting lines together (most of a repaint's time) is not needed."""
        filters, background = self.get_line_filters(), self.background_colors[1]
        strips = []
        for y in crop.line_range:
            strip = self.render_line(y)
            for each in filters:
                strip = strip.apply_filter(each, background)
            strips.append(strip if crop.width == strip.cell_length else strip.crop(*crop.column_span))
        return strips

    def render_line(self, y: int) -> Strip:
        """One line: spans cut or filled to the width, in the theme's colours."""
        width = self.size.width
        line = self.line_at(y, width)
        segments: list[Segment] = []
        left = width
        for text, ink in line:
            shown = visible(text)
            cells = len(shown) if shown.isascii() else cell_len(shown)
            if cells > left:
                shown, cells = set_cell_size(shown, left), left
            if cells:
                segments.append(Segment(shown, self.ink(ink)))
                left -= cells
            if not left:
                break
        if left:
            segments.append(Segment(" " * left, self.ink("plain")))
        return Strip(segments, width)
