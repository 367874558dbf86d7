"""The base of every screen: its actions from the register, a told line, Esc to step back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual.screen import Screen

from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.status_line import StatusLine
from counter.tui.widgets.text_entry import TextEntry
from counter.values.errors import UserError

#: So many sentences of the ledger are told at once.
_MOST_TOLD = 2


def in_short(sentences: Sequence[str]) -> str:
    """The first sentences whole, and how many more there are."""
    more = len(sentences) - _MOST_TOLD
    words = " ".join(sentences[:_MOST_TOLD])
    return f"{words} And {more:,} more: Ctrl+E, look it over, lists them." if more > 0 else words


class BaseScreen(Screen[None]):
    """A screen named `NAME` in the register of actions.

    Its compose yields `StatusLine()` and `KeyBar(self.NAME)` last. An action `id` is carried out by the
    method `do_<id>` of the screen, or else of the app.
    """

    NAME: ClassVar[str] = ""
    busy = ""  # the long work it is at, in words

    def on_screen_resume(self) -> None:
        """In front (again): a running bath stands at its top from the first frame on."""
        watch = getattr(self.app, "baths", None)
        if watch:
            watch.show_on(self)

    def action_do(self, name: str) -> None:
        """Carry out an action of the register; what was told before is done with."""
        self.say("")
        method = getattr(self, f"do_{name}", None) or getattr(self.app, f"do_{name}")
        try:
            method()
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
        self.tell_more()

    def tell_more(self) -> None:
        """What the ledger has to tell besides: a clock that went back, a line set aside."""
        desk = getattr(self.app, "desk", None)
        if desk is None or not desk.ledger.told or self.app.screen is not self:
            return
        told, wrong = "", True
        for each in self.query(StatusLine):
            told, wrong = each.words, each.wrong or not each.words
        self.say(f"{told} {in_short(desk.ledger.told)}".strip(), wrong=wrong)
        desk.ledger.told.clear()

    def on_key_bar_pressed(self, event: KeyBar.Pressed) -> None:
        """An action was clicked in the foot line."""
        event.stop()
        self.action_do(event.action)

    def on_text_entry_paste_cut(self, event: TextEntry.PasteCut) -> None:
        """More was pasted than a line holds."""
        self.say(
            f"A line holds {event.kept} characters; the rest of the paste was left out.", wrong=True
        )

    def do_back(self) -> None:
        """Step back to the screen before."""
        self.dismiss()

    def say_done(self, verb: Callable[[], str]) -> bool:
        """Do it and tell what it says; whether it was done, or else the sentence of its UserError."""
        try:
            self.say(verb())
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return False
        return True

    def say(self, words: str, *, wrong: bool = False) -> None:
        """Tell a sentence above the foot line, where it stays until the next action."""
        for told in self.query(StatusLine):
            told.tell(words, wrong=wrong)
