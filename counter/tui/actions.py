"""The one register of actions: keys, foot line, help and the finder are all fed from here.

Keys avoid what terminals and desktops take for themselves (Ctrl+S, Ctrl+Z, Alt+letter, F11); what
is vital has two. A test finds double keys and missing help.
"""

from __future__ import annotations

from dataclasses import dataclass

from textual.binding import Binding


@dataclass(frozen=True, slots=True)
class Action:
    """Something a person can do on a screen.

    `keys` as the framework names them, `shown` as the foot line prints the first of them, `label`
    one or two words, `help` a sentence, `words` other words a person may look for it by.
    `foot` orders the foot line (0 = not there; 1 stands first).
    """

    id: str
    screen: str
    keys: tuple[str, ...]
    shown: str
    label: str
    help: str
    words: str = ""
    foot: int = 0


ACTIONS: tuple[Action, ...] = (
    Action("help", "everywhere", ("f1",), "F1", "help", "Help for where you are.", "how what ? keys", 9),
    Action(
        "find", "everywhere", ("f2",), "F2", "all actions", "Every action, found by plain words.",
        "menu search command list", 8,
    ),
    Action(
        "leave", "everywhere", ("f10", "ctrl+q"), "F10", "leave",
        "Close the counter. Unfinished notes are kept.", "quit exit stop end", 10,
    ),
)  # fmt: skip


def actions_on(screen: str) -> tuple[Action, ...]:
    """The screen's own actions and those that work everywhere."""
    return tuple(each for each in ACTIONS if each.screen in (screen, "everywhere"))


def bindings_on(screen: str) -> list[Binding]:
    """Key bindings for a screen class's BINDINGS."""
    own = (each for each in ACTIONS if each.screen == screen)
    return [
        Binding(key, f"do('{each.id}')", each.label, show=False, priority=True)
        for each in own
        for key in each.keys
    ]
