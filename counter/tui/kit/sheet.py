"""The base of every screen: its actions from the register, a foot line, Esc to step back."""

from __future__ import annotations

from typing import ClassVar

from textual.screen import Screen

from counter.tui.kit.foot import Foot
from counter.tui.text import plain


class Sheet(Screen[None]):
    """A screen named `PLACE` in the register of actions.

    An action `id` is carried out by the method `do_<id>` of the screen, or else of the app.
    """

    PLACE: ClassVar[str] = ""

    def action_do(self, name: str) -> None:
        """Carry out an action of the register."""
        method = getattr(self, f"do_{name}", None) or getattr(self.app, f"do_{name}")
        method()

    def on_foot_pressed(self, event: Foot.Pressed) -> None:
        """An action was clicked in the foot line."""
        event.stop()
        self.action_do(event.action)

    def do_back(self) -> None:
        """Step back to the screen before."""
        self.dismiss()

    def say(self, words: str, *, wrong: bool = False) -> None:
        """A short notice; user text in it stays text."""
        title = "Not done" if wrong else ""
        self.notify(
            str(plain(words)), title=title, severity="error" if wrong else "information", markup=False
        )
