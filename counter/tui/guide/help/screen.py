"""Help for where you are: what the screen is for, its keys, and the usual cautions."""

from __future__ import annotations

from textual.app import ComposeResult

from counter.tui.actions import actions_on, bindings_on, help_for
from counter.tui.kit.action import EVERYWHERE
from counter.tui.kit.drawn import wrap
from counter.tui.kit.foot import Foot
from counter.tui.kit.page import Page
from counter.tui.kit.rule import Rule
from counter.tui.kit.sheet import Sheet
from counter.tui.kit.told import Told
from counter.tui.text import Line

#: Longer lines are hard to read on.
_MEASURE = 104


class HelpSheet(Sheet):
    """Shows the help of one screen, named by its place in the register."""

    PLACE = "help"
    BINDINGS = bindings_on("help")

    def __init__(self, place: str) -> None:
        super().__init__()
        self.about = place

    def compose(self) -> ComposeResult:
        """A heading, the page, the foot line."""
        yield Rule(f"Help: {help_for(self.about).title}")
        yield Page(self._lines)
        yield Told()
        yield Foot(self.PLACE)

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
        self.query_one(Page).turn(1)

    def do_up(self) -> None:
        """One line up."""
        self.query_one(Page).turn(-1)

    def do_page_down(self) -> None:
        """One page down."""
        self.query_one(Page).turn(self.query_one(Page).size.height - 1)

    def do_page_up(self) -> None:
        """One page up."""
        self.query_one(Page).turn(1 - self.query_one(Page).size.height)
