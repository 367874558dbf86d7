"""The foot line: the keys that matter here, whole at 80 columns."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events
from textual.message import Message

from counter.tui.widgets.action import Action
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line


class KeyBar(LineWidget):
    """Shows the actions of a screen that stand in the foot, most wanted first; each can be clicked."""

    DEFAULT_CSS = "KeyBar { height: 1; }"

    class Pressed(Message):
        """An action in the foot line was clicked."""

        def __init__(self, action: str) -> None:
            super().__init__()
            self.action = action

    def __init__(
        self, actions: Sequence[Action], offered: Callable[[str], bool] = lambda action: True
    ) -> None:
        super().__init__()
        self.offered = offered  # whether an action, by its id, would do anything now
        shown = (action for action in actions if action.foot)
        self.actions: list[Action] = sorted(shown, key=lambda action: action.foot)

    def line_at(self, y: int, width: int) -> Line:
        """Key and label of each; one that does not fit whole is left out, help stays."""
        line: Line = []
        for action in self.fitting(width):
            line += [(f" {action.shown}", "accent"), (f" {action.label}", "dim")]
        return line

    def fitting(self, width: int) -> list[Action]:
        """The actions that fit, in order; where room is short the least wanted go."""
        kept = [action for action in self.actions if self.offered(action.id)]
        while kept and sum(_cells(action) for action in kept) > width:
            wanted = [action for action in kept if action.id != "help"] or kept
            kept.remove(max(wanted, key=lambda action: action.foot))
        return kept

    def on_click(self, event: events.Click) -> None:
        """A click on a key does what the key does."""
        left = event.x
        for action in self.fitting(self.content_size.width):
            left -= _cells(action)
            if left < 0:
                self.post_message(self.Pressed(action.id))
                return


def _cells(action: Action) -> int:
    return len(action.shown) + len(action.label) + 2
