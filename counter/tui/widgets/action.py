"""What a person can do on a screen: its key, its words for the foot line, for help and for the finder.

Keys avoid what terminals and desktops take for themselves (Ctrl+S, Ctrl+Z, Alt+letter, F11); what is
vital has two. What throws something away for good has a key of its own on every screen, Ctrl+X (Del
in a list): no key that is harmless here throws away there. Tests walk all screens for it.
"""

from __future__ import annotations

from dataclasses import dataclass

#: How the foot line prints the keys that do not print as they are named.
_SHOWN = {
    "up": "↑", "down": "↓", "left": "←", "right": "→", "enter": "Enter", "escape": "Esc",
    "pagedown": "PgDn", "pageup": "PgUp", "delete": "Del",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Action:
    """Something a person can do; the screen (or the app) does it in its method `do_<id>`.

    `keys` as the framework names them, a space between two; `label` one or two words, `help` a
    sentence, `words` other words a person may look for it by. `foot` orders the foot line (0 = not
    there; 1 stands first). `takes_away`: what it ends or empties does not come back by a key.
    """

    id: str
    keys: str
    label: str
    help: str
    words: str = ""
    foot: int = 0
    takes_away: bool = False

    @property
    def shown(self) -> str:
        """The first key as the foot line prints it."""
        return key_words(self.keys.split()[0]) if self.keys else ""


@dataclass(frozen=True, slots=True)
class Help:
    """A screen's name in plain words and what to know about it."""

    title: str
    paragraphs: tuple[str, ...]


def key_words(key: str) -> str:
    """A key as it is printed: F1, Ctrl+T, ↓, Esc."""
    return _SHOWN.get(key) or "+".join(part.title() for part in key.split("+"))


# fmt: off
#: Actions that work on every screen, unless it has its own way.
EVERYWHERE = (
    Action("help", "f1", "help", "Help for where you are.", "how what ? keys", foot=8),
    Action("find", "f2", "find", "Every action, found by plain words.", "menu all actions list", foot=9),
    Action("leave", "f10 ctrl+q", "leave", "Close the counter; unfinished notes are kept.",
           "quit exit stop end", foot=12),
    Action("open_demo", "ctrl+o", "open the demo",
           "Try everything on an invented dealer's stock; yours is put aside.", "example play"),
    Action("light", "f12", "light", "Day or night colours.", "dark theme colours screen"),
    Action("baths", "ctrl+r", "baths", "The running baths: rinse now, the countdown.",
           "rinse timer alarm countdown dry"),
    Action("take_back", "ctrl+t", "take back", "Take back the last entry by a new one.",
           "undo reverse mistake wrong cancel"),
    Action("put_back", "ctrl+y", "put back", "Let what was just taken back stand again.",
           "redo again restore undo"),
    Action("book", "", "book", "The stock book of a period, its totals and gaps.",
           "vat return tax stock book totals"),
    Action("sales", "", "sales", "Find a sale: balance, approval, refund, a deposit ended.",
           "invoice return settle"),
    Action("kept", "", "kept quotes", "Find a kept quote again.", "open quotes offers"),
    Action("people", "", "people", "Who is known; complete, export, erase.",
           "seller buyer name address privacy"),
    Action("house", "", "house", "Your business, limits, rates of exchange, the house schedule.",
           "settings vat registration profit factors currency thresholds"),
)
# fmt: on


def steps(noun: str, *, before: str = "", label: str = "") -> tuple[Action, Action]:
    """The arrow keys in a list or a form: "The next sale.", "The sale before."."""
    before = before or noun
    return (
        Action("down", "down", "next", f"The next {noun}."),
        Action("up", "up", f"{label or before} before", f"The {before} before."),
    )


def pages(
    on: str,
    back: str,
    *,
    labels: tuple[str, str] = ("page on", "page back"),
    down: str = "pagedown",
    up: str = "pageup",
    foot: int = 0,
) -> tuple[Action, Action]:
    """The page keys, with a sentence for either way."""
    return (
        Action("page_down", down, labels[0], on, foot=foot),
        Action("page_up", up, labels[1], back),
    )


def back(help: str = "Back.", *, words: str = "", keys: str = "escape", foot: int = 6) -> Action:
    """Esc: step back to the screen before."""
    return Action("back", keys, "back", help, words, foot)


def take_back(*, foot: int = 0) -> Action:
    """Reverse the last entry."""
    sentence = "Take back the last entry by a new one."
    return Action("take_back", "ctrl+t", "take back", sentence, "undo reverse mistake", foot)


def own_eyes_key(what: str, *, words: str = "", foot: int = 0) -> Action:
    """The one key of what is the dealer's own: shown while asked for, covered again on leaving."""
    sentence = f"Show {what}; again, or leaving, covers it."
    return Action(
        "costs", "f8", "costs", sentence, f"own paid cost margin profit earned {words}".strip(), foot
    )


def fetch(*, foot: int = 0) -> Action:
    """What stands in a field of a form, to change a word of it."""
    sentence = "Put what stands there into the line, to change a word of it."
    return Action("fetch", "tab", "as it stands", sentence, "edit", foot)
