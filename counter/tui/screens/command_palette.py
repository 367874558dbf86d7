"""Every action of the screen in front, found by plain words."""

from __future__ import annotations

from rapidfuzz import fuzz
from textual.app import ComposeResult
from textual.screen import Screen
from textual.widgets import Input

from counter.tui.actions import actions_on, bindings_on
from counter.tui.text import Line
from counter.tui.widgets.action import Action
from counter.tui.widgets.entry_row import PromptedEntry
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.line_widget import two_ends
from counter.tui.widgets.list_view import LineList, mark


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


class CommandPalette(Screen[str | None]):
    """Dismisses with the id of the action chosen, or None."""

    NAME = "find"
    BINDINGS = bindings_on("find")

    def __init__(self, place: str) -> None:
        super().__init__()
        self.actions = tuple(each for each in actions_on(place) if each.id != "find")

    def compose(self) -> ComposeResult:
        """A line to type in, the list, the foot line."""
        yield Heading("What do you want to do?")
        yield PromptedEntry("find", "a word of it, such as discount", entry="wanted")
        yield ActionRows(self.actions)
        yield KeyBar(self.NAME)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Narrow the list."""
        rows = self.query_one(ActionRows)
        rows.actions = matching(event.value, self.actions)
        rows.start_again()

    def action_do(self, name: str) -> None:
        """The finder's own four actions, and those that work everywhere."""
        rows = self.query_one(ActionRows)
        if name in ("up", "down"):
            rows.move(1 if name == "down" else -1)
        elif name == "take":
            self.dismiss(rows.actions[rows.cursor].id if rows.actions else None)
        elif name == "back":
            self.dismiss(None)
        else:
            getattr(self.app, f"do_{name}")()

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        self.action_do("take")

    def on_key_bar_pressed(self, event: KeyBar.Pressed) -> None:
        """Clicked in the foot line."""
        self.action_do(event.action)


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
