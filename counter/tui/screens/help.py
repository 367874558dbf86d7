"""Help for where you are: what the screen is for, its keys, and the usual cautions."""

from __future__ import annotations

from textual.app import ComposeResult

from counter.tui.actions import actions_on, bindings_on, help_for
from counter.tui.text import Line
from counter.tui.widgets.action import EVERYWHERE
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.line_widget import wrap
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.status_line import StatusLine

#: Longer lines are hard to read on.
_MEASURE = 104


class HelpScreen(BaseScreen):
    """Shows the help of one screen, named by its place in the register."""

    NAME = "help"
    BINDINGS = bindings_on("help")

    def __init__(self, place: str) -> None:
        super().__init__()
        self.about = place

    def compose(self) -> ComposeResult:
        """A heading, the page, the foot line."""
        yield Heading(f"Help: {help_for(self.about).title}")
        yield ScrollPage(self._lines)
        yield StatusLine()
        yield KeyBar(self.NAME)

    def _lines(self, width: int) -> list[Line]:
        lines: list[Line] = []
        for paragraph in help_for(self.about).paragraphs:
            lines += [[("  " + line, "plain")] for line in wrap(paragraph, min(width, _MEASURE) - 4)]
            lines.append([])
        lines.append([("  Keys", "head")])
        for action in sorted(actions_on(self.about), key=lambda each: each.screen == EVERYWHERE):
            keys = action.shown or f"F2 {action.label}"
            keys += f" ({action.keys[1].title()})" if len(action.keys) > 1 else ""
            wrapped = wrap(action.help, width - 22)
            lines.append([(f"  {keys:<18}", "accent"), (wrapped[0], "plain")])
            lines += [[(" " * 20 + rest, "plain")] for rest in wrapped[1:]]
        return lines

    def do_down(self) -> None:
        """One line down."""
        self.query_one(ScrollPage).turn(1)

    def do_up(self) -> None:
        """One line up."""
        self.query_one(ScrollPage).turn(-1)

    def do_page_down(self) -> None:
        """One page down."""
        self.query_one(ScrollPage).turn(self.query_one(ScrollPage).size.height - 1)

    def do_page_up(self) -> None:
        """One page up."""
        self.query_one(ScrollPage).turn(1 - self.query_one(ScrollPage).size.height)
