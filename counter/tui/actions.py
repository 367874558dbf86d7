"""The one register of actions: keys, foot line, help and the finder are all fed from here.

Keys avoid what terminals and desktops take for themselves (Ctrl+S, Ctrl+Z, Alt+letter, F11); what
is vital has two. A test finds double keys and missing help.
"""

from __future__ import annotations

from dataclasses import dataclass

from textual.binding import Binding, BindingType


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


EVERYWHERE = "everywhere"

# fmt: off
ACTIONS: tuple[Action, ...] = (
    Action("help", EVERYWHERE, ("f1",), "F1", "help",
           "Help for where you are.", "how what ? keys", 20),
    Action("find", EVERYWHERE, ("f2",), "F2", "find",
           "Every action, found by plain words.", "menu all actions list", 19),
    Action("leave", EVERYWHERE, ("f10", "ctrl+q"), "F10", "leave",
           "Close the counter; unfinished notes are kept.", "quit exit stop end", 21),
    Action("light", EVERYWHERE, ("f12",), "F12", "light",
           "Day or night colours.", "dark theme colours screen"),

    Action("take", "counter", ("enter",), "Enter", "quote it",
           "Put the chosen stock line into the quote; after bt it notes the purchase.",
           "add sell price", 1),
    Action("down", "counter", ("down",), "↓", "next", "The next row of the list."),
    Action("up", "counter", ("up",), "↑", "row before", "The row before."),
    Action("side", "counter", ("tab", "shift+tab"), "Tab", "stamp/stock",
           "The arrow keys move the other list: what it is, or the stock.", "switch list", 2),
    Action("card_down", "counter", ("pagedown",), "PgDn", "card on", "Further down the card."),
    Action("card_up", "counter", ("pageup",), "PgUp", "card back", "Further up the card."),
    Action("quote", "counter", ("f3",), "F3", "the quote",
           "Read the quote out, take a discount off, take a line out, copy it.",
           "discount total customer", 3),
    Action("back", "counter", ("escape",), "Esc", "clear", "Step back: an empty line."),

    Action("back", "help", ("escape", "enter"), "Esc", "back", "Back to where you were.", "", 1),
    Action("down", "help", ("down",), "↓", "down", "One line down."),
    Action("up", "help", ("up",), "↑", "up", "One line up."),
    Action("page_down", "help", ("pagedown", "space"), "PgDn", "further", "One page down.", "", 2),
    Action("page_up", "help", ("pageup",), "PgUp", "back up", "One page up."),

    Action("back", "find", ("escape",), "Esc", "back", "Back without doing anything.", "", 2),
    Action("down", "find", ("down",), "↓", "next", "The next action."),
    Action("up", "find", ("up",), "↑", "row before", "The action before."),
    Action("take", "find", ("enter",), "Enter", "do it", "Do the chosen action.", "", 1),

    Action("back", "quote", ("escape",), "Esc", "back", "Back to the counter; the quote stays.", "", 6),
    Action("down", "quote", ("down",), "↓", "next", "The next line."),
    Action("up", "quote", ("up",), "↑", "row before", "The line before."),
    Action("remove", "quote", ("delete", "f8"), "Del", "take out", "Take the chosen line out.",
           "remove delete", 2),
    Action("discount", "quote", ("enter",), "Enter", "discount",
           "Take the discount typed: 10% or a price for the lot; empty for none.", "percent round", 1),
    Action("copy", "quote", ("f5",), "F5", "copy", "Copy the quote as plain text.", "clipboard", 3),
    Action("clear", "quote", ("f9",), "F9", "empty it", "Start an empty quote.", "new", 4),
)
# fmt: on


def actions_on(screen: str) -> tuple[Action, ...]:
    """The screen's own actions and those that work everywhere."""
    return tuple(each for each in ACTIONS if each.screen in (screen, EVERYWHERE))


def bindings_on(screen: str) -> list[BindingType]:
    """Key bindings for the BINDINGS of the class that carries out a screen's actions."""
    return [
        Binding(key, f"do('{each.id}')", each.label, show=False, priority=True)
        for each in ACTIONS
        if each.screen == screen
        for key in each.keys
    ]
