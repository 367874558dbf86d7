"""Every action of the screen in front, found by plain words."""

from __future__ import annotations

from rapidfuzz import fuzz
from textual.app import ComposeResult
from textual.widgets import Input

from counter.tui.widgets.action import Action, Help, back, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.text import Line, two_ends
from counter.tui.widgets.text_entry import PromptedEntry


def matching(words: str, actions: tuple[Action, ...]) -> list[Action]:
    """The actions best described by the words, best first; all of them for no words."""
    wanted = words.strip().lower()
    if not wanted:
        return list(actions)
    scored = [
        (fuzz.WRatio(wanted, f"{each.label} {each.help} {each.words}".lower()), each)
        for each in actions
    ]
    return [each for score, each in sorted(scored, key=lambda pair: -pair[0]) if score >= 55]


class CommandPalette(BaseScreen):
    """`taken` is the id of the action chosen, once it is left; "" for none."""

    NAME = "command_palette"
    # fmt: off
    ACTIONS = (
        back("Back without doing anything.", foot=2),
        *steps("action", label="row"),
        Action("take", "enter", "do it", "Do the chosen action.", foot=1),
    )
    # fmt: on
    ABOUT = Help("finding an action", ("Type a word of what you want to do; Enter does it.",))

    def __init__(self, about: type[BaseScreen]) -> None:
        super().__init__()
        self.actions = tuple(each for each in about.all_actions() if each.id != "find")
        self.taken = ""

    def body(self) -> ComposeResult:
        """A line to type in, the list, the foot line."""
        yield Heading("What do you want to do?")
        yield PromptedEntry("find", "a word of it, such as discount", entry="wanted")
        yield ActionRows(self.actions)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Narrow the list."""
        rows = self.query_one(ActionRows)
        rows.actions = matching(event.value, self.actions)
        rows.start_again()

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        self.do_take()

    def do_take(self) -> None:
        """Do the chosen action, on the screen below."""
        rows = self.query_one(ActionRows)
        self.taken = rows.actions[rows.cursor].id if rows.actions else ""
        self.dismiss()


#: Wide enough for the longest sentence; the keys stay beside them on a wider screen.
_WIDE = 116


class ActionRows(LineList):
    """The actions that match."""

    def __init__(self, actions: tuple[Action, ...]) -> None:
        super().__init__()
        self.actions = list(actions)

    def count(self) -> int:
        """How many match."""
        return len(self.actions)

    def empty(self) -> str:
        """Nothing matches."""
        return "  Nothing is called that; try another word."

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Label, what it does, and its key."""
        action = self.actions[index]
        return two_ends(
            [mark(chosen), (f"{action.label:<14}", "strong"), (action.help, "plain")],
            [(f" {action.shown}", "accent")],
            min(width, _WIDE),
        )
