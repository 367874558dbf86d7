"""The one register of actions: keys, foot line, help and the finder are all fed from here.

Each screen's folder has a words.py with its actions and its help. Keys avoid what terminals and
desktops take for themselves (Ctrl+S, Ctrl+Z, Alt+letter, F11); what is vital has two. A test finds
double keys and missing help.
"""

from __future__ import annotations

from functools import cache
from importlib import import_module
from typing import Protocol, cast

from textual.binding import Binding, BindingType

from counter.tui.widgets.action import EVERYWHERE, Action, Help

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
    Action("book", EVERYWHERE, (), "", "book", "The stock book of a period, its totals and gaps.",
           "vat return tax stock book totals"),
    Action("sales", EVERYWHERE, (), "", "sales",
           "Find a sale: balance, approval, refund, a deposit ended.", "invoice return settle"),
    Action("kept", EVERYWHERE, (), "", "kept quotes", "Find a kept quote again.", "open quotes offers"),
    Action("people", EVERYWHERE, (), "", "people", "Who is known; complete, export, erase.",
           "seller buyer name address privacy"),
    Action("house", EVERYWHERE, (), "", "house",
           "Your business, limits, rates of exchange, the house schedule.",
           "settings vat registration profit factors currency thresholds"),
)
# fmt: on


class Words(Protocol):
    """What a screen's words.py holds."""

    @property
    def ACTIONS(self) -> tuple[Action, ...]: ...  # noqa: D102
    @property
    def HELP(self) -> Help: ...  # noqa: D102


#: The folder of each screen's words by place: a new screen is added here.
PLACES: dict[str, str] = {
    "counter": "counter.words",
    "look": "examine.words",
    "quote": "quote_words",
    "sale": "sell_words",
    "keep": "save_quote_words",
    "kept": "saved_quotes_words",
    "paper": "invoice_words",
    "filing": "save_file_words",
    "day": "day.words",
    "till": "cash_box_words",
    "owed": "complete_purchase_words",
    "lot": "split_lot_words",
    "book": "stock_book.words",
    "sales": "sales_words",
    "settle": "after_sale_words",
    "people": "people_words",
    "person": "person_words",
    "house": "settings_words",
    "worth": "price_in_hand_words",
    "piece": "item.words",
    "mend": "edit_item_words",
    "cover": "cover.words",
    "treat": "treatments.words",
    "treatment": "treatment.words",
    "strength": "peroxide.words",
    "bath_checks": "treatment_checks.words",
    "bath": "treatment_timer.words",
    "bath_end": "treatment_done_words",
    "data": "data_files_words",
    "data_file": "data_job.words",
    "stock_list": "import_stock.words",
    "columns": "import_columns_words",
    "conflicts": "conflicts_words",
    "find": "command_palette_words",
    "help": "help_words",
}


@cache
def words_of(place: str) -> Words:
    """A screen's words, read when the screen is first asked for: the first frame waits for its own."""
    return cast(Words, import_module(f"counter.tui.screens.{PLACES[place]}"))


def every_action() -> tuple[Action, ...]:
    """The actions of all screens."""
    return (*_EVERYWHERE, *(each for place in PLACES for each in words_of(place).ACTIONS))


def _own(screen: str) -> tuple[Action, ...]:
    return _EVERYWHERE if screen == EVERYWHERE else words_of(screen).ACTIONS


def help_for(place: str) -> Help:
    """The help of a screen."""
    return words_of(place).HELP


def actions_on(screen: str) -> tuple[Action, ...]:
    """The screen's own actions and those that work everywhere, unless the screen has its own way."""
    own = _own(screen)
    named = {each.id for each in own}
    return (*own, *(each for each in _EVERYWHERE if each.id not in named))


def bindings_on(screen: str) -> list[BindingType]:
    """Key bindings for the BINDINGS of the class that carries out a screen's actions."""
    return [
        Binding(key, f"do('{each.id}')", each.label, show=False, priority=True)
        for each in _own(screen)
        for key in each.keys
    ]
