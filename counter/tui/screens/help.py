"""Help for where you are: what the screen is for, its keys, and the usual cautions."""

from __future__ import annotations

from textual.app import ComposeResult

from counter.tui.widgets.action import Action, Help, back, pages
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, wrap

#: Longer lines are hard to read on.
_MEASURE = 104


class HelpScreen(BaseScreen):
    """Shows the help of one screen, given by its class."""

    NAME = "help"
    # fmt: off
    ACTIONS = (
        back("Back to where you were.", keys="escape enter", foot=1),
        Action("down", "down", "down", "One line down."),
        Action("up", "up", "up", "One line up."),
        *pages("One page down.", "One page up.", labels=("further", "back up"), down="pagedown space",
               foot=2),
    )
    # fmt: on
    ABOUT = Help("help", ("This page. Esc goes back.",))

    def __init__(self, about: type[BaseScreen]) -> None:
        super().__init__()
        self.about = about

    def body(self) -> ComposeResult:
        """A heading, the page, the foot line."""
        yield Heading(f"Help: {self.about.ABOUT.title}")
        yield ScrollPage(self._lines)

    def _lines(self, width: int) -> list[Line]:
        lines: list[Line] = []
        for paragraph in self.about.ABOUT.paragraphs:
            lines += [[("  " + line, "plain")] for line in wrap(paragraph, min(width, _MEASURE) - 4)]
            lines.append([])
        lines.append([("  Keys", "head")])
        for action in self.about.all_actions():
            keys = action.shown or f"F2 {action.label}"
            keys += "".join(f" ({each.title()})" for each in action.keys.split()[1:2])
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
