"""Every action, found by plain words: of the screen in front, and where the others stand."""

from __future__ import annotations

from textual.app import ComposeResult

from counter.tui.action_search import FoundAction, found_actions
from counter.tui.widgets.action import Action, Help, back, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.text import Line, two_ends
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry


class CommandPalette(BaseScreen):
    """`taken` is the action chosen, once it is left; None for none."""

    NAME = "command_palette"
    # fmt: off
    ACTIONS = (
        back("Back without doing anything.", foot=2),
        *steps("action", label="row"),
        Action("take", "enter", "do it", "Do the chosen action.", foot=1),
    )
    # fmt: on
    ABOUT = Help(
        "finding an action",
        (
            "Type a word of what you want to do; Enter does it. / or : in an empty line comes here.",
            "What stands on another screen says where, with its key there; Enter goes there if it can be "
            "reached from here.",
        ),
    )

    def __init__(self, about: type[BaseScreen]) -> None:
        super().__init__()
        self.actions = tuple(each for each in about.all_actions() if each.id != "find")
        self.taken: FoundAction | None = None

    def body(self) -> ComposeResult:
        """A line to type in, the list, the foot line."""
        yield Heading("Every action")
        yield PromptedEntry("find", "a word of it, such as discount", entry="wanted")
        yield ActionRows(self.actions)

    def on_mount(self) -> None:
        """Watch the line's value itself: waiting for its message would cost a frame."""
        self.watch(self.query_one("#wanted", TextEntry), "value", self._typed, init=False)

    def _typed(self, words: str) -> None:
        self.query_one(ActionRows).show(words)

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        self.do_take()

    def do_take(self) -> None:
        """Do the chosen action, on the screen below."""
        rows = self.query_one(ActionRows)
        self.taken = rows.found[rows.cursor] if rows.found else None
        self.dismiss()


#: Wide enough for the longest sentence; the keys stay beside them on a wider screen.
_WIDE = 116


class ActionRows(LineList):
    """The actions that match."""

    def __init__(self, actions: tuple[Action, ...]) -> None:
        super().__init__()
        self.actions = actions
        self.found = found_actions("", actions)

    def show(self, words: str) -> None:
        """What the words find."""
        self.found = found_actions(words, self.actions)
        self.start_again()

    def count(self) -> int:
        """How many match."""
        return len(self.found)

    def empty(self) -> str:
        """Nothing matches."""
        return "  Nothing is called that; try another word."

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Label, what it does, where it stands and its key."""
        found = self.found[index]
        return two_ends(
            [
                mark(chosen),
                (f"{found.action.label:<14}", "strong"),
                (found.action.help, "plain"),
            ],
            [(f" {found.place}", "accent")],
            min(width, _WIDE),
        )
