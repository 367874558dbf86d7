"""The one register of actions: keys, foot line, help and the finder are all fed from here.

Each screen's folder has a words.py with its actions and its help. Keys avoid what terminals and
desktops take for themselves (Ctrl+S, Ctrl+Z, Alt+letter, F11); what is vital has two. A test finds
double keys and missing help.
"""

from __future__ import annotations

from typing import Protocol

from textual.binding import Binding, BindingType

from counter.tui.bath import words as bath
from counter.tui.bath_checks import words as bath_checks
from counter.tui.bath_end import words as bath_end
from counter.tui.counter import words as counter
from counter.tui.cover import words as cover
from counter.tui.finder import words as finder
from counter.tui.help import words as help_page
from counter.tui.kit.action import EVERYWHERE, Action, Help
from counter.tui.look import words as look
from counter.tui.mend import words as mend
from counter.tui.piece import words as piece
from counter.tui.quote import words as quote
from counter.tui.strength import words as strength
from counter.tui.treat import words as treat
from counter.tui.treatment import words as treatment

# fmt: off
_EVERYWHERE = (
    Action("help", EVERYWHERE, ("f1",), "F1", "help",
           "Help for where you are.", "how what ? keys", 8),
    Action("find", EVERYWHERE, ("f2",), "F2", "find",
           "Every action, found by plain words.", "menu all actions list", 9),
    Action("leave", EVERYWHERE, ("f10", "ctrl+q"), "F10", "leave",
           "Close the counter; unfinished notes are kept.", "quit exit stop end", 12),
    Action("open_demo", EVERYWHERE, ("ctrl+o",), "Ctrl+O", "open the demo",
           "Try everything on an invented dealer's stock; yours is put aside.", "example play"),
    Action("light", EVERYWHERE, ("f12",), "F12", "light",
           "Day or night colours.", "dark theme colours screen"),
    Action("baths", EVERYWHERE, ("ctrl+r",), "Ctrl+R", "baths",
           "The running baths: rinse now, the countdown.", "rinse timer alarm countdown dry"),
)
# fmt: on


class Words(Protocol):
    """What a screen's words.py holds."""

    @property
    def ACTIONS(self) -> tuple[Action, ...]: ...  # noqa: D102
    @property
    def HELP(self) -> Help: ...  # noqa: D102


#: The screens' words by place: a new screen is added here.
PLACES: dict[str, Words] = {
    "counter": counter,
    "look": look,
    "quote": quote,
    "piece": piece,
    "mend": mend,
    "cover": cover,
    "treat": treat,
    "treatment": treatment,
    "strength": strength,
    "bath_checks": bath_checks,
    "bath": bath,
    "bath_end": bath_end,
    "find": finder,
    "help": help_page,
}
ACTIONS: tuple[Action, ...] = (
    *_EVERYWHERE,
    *(each for words in PLACES.values() for each in words.ACTIONS),
)


def help_for(place: str) -> Help:
    """The help of a screen."""
    return PLACES[place].HELP


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
