"""A question before what cannot be seen to be small: it is named, and yes is typed."""

from __future__ import annotations

from textual.app import ComposeResult

from counter.tui.widgets.action import Action, Help, back
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, wrap
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry


class ConfirmScreen(BaseScreen):
    """`yes` once it is left: whether it was said. A key leant on says nothing."""

    NAME = "confirm"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer", "Do it, when yes is typed.", "yes confirm sure", foot=1),
        back("Back; nothing is done.", words="no cancel", foot=2),
    )
    # fmt: on
    ABOUT = Help(
        "a question first",
        ("What is old, or goes for good, is named and asked about: type yes and press Enter, or Esc.",),
    )

    def __init__(self, question: str, told: str) -> None:
        super().__init__()
        self.question = question
        self.told = told
        self.yes = False

    def body(self) -> ComposeResult:
        """The question, what it is about, the answer."""
        yield Heading(self.question)
        yield PromptedEntry("type yes", "then Enter; Esc leaves it as it is", entry="sure")
        yield ScrollPage(self._lines)

    def on_mount(self) -> None:
        """Ready to type."""
        self.query_one(TextEntry).focus()

    def _lines(self, width: int) -> list[Line]:
        return [[], *([("  " + part, "strong")] for part in wrap(self.told, max(width - 4, 10)))]

    def do_answer(self) -> None:
        """Only the whole word counts."""
        if self.query_one(TextEntry).value.strip().lower() != "yes":
            self.say("Nothing is done: type yes and press Enter, or Esc to leave it.", wrong=True)
            return
        self.yes = True
        self.dismiss()

    def do_take_back(self) -> None:
        """The key that led here, leant on."""

    def do_put_back(self) -> None:
        """Nothing: a question is open."""
