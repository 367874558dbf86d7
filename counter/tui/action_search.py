"""Every action of every screen, found by the words a dealer uses; best first, and where each stands."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from rapidfuzz import fuzz

from counter.tui.navigation import SCREENS, screen_class
from counter.tui.widgets.action import EVERYWHERE, Action

#: Screens that only ask or explain: nobody looks for what is done there from another screen.
_BESIDE = ("command_palette", "confirm", "help")
#: Keys that only move about a screen.
_MOVES = {"up", "down", "left", "right", "page_up", "page_down", "back"}
#: Words of a question that name nothing.
_EMPTY = frozenset(
    re.findall(
        r"\w+", "a and an do does for how i in is it me much my of on or s the this to what where"
    )
)
#: How much a word tells by where it stands: whole, or begun.
_LABEL, _WORDS, _HELP = (100.0, 80.0), (85.0, 65.0), (45.0, 30.0)
#: A slip of the key in a long word still finds; letters shared by chance do not.
_SLIP, _ALIKE, _LONG = 40.0, 80.0, 4
#: A screen to which no way is known comes behind those with one.
_NO_WAY = 9
#: What stands on the screen in front comes before what stands elsewhere and is as near.
_HERE = 8.0


@dataclass(frozen=True, slots=True)
class FoundAction:
    """An action and the screen it stands on; `screen` is "" for the one in front or everywhere."""

    action: Action
    screen: str = ""

    @property
    def place(self) -> str:
        """Where it stands, in words, and its key there."""
        title = f"{screen_class(self.screen).ABOUT.title}: " if self.screen else ""
        return f"{title}{self.action.shown}"


@cache
def _elsewhere() -> tuple[FoundAction, ...]:
    """What can be done on any screen, once an action: on the screen nearest to the counter."""
    found, seen = [], {(each.label, each.help) for each in EVERYWHERE}
    for name in sorted(SCREENS, key=lambda name: len(way_to("counter", name)) or _NO_WAY):
        for action in () if name in _BESIDE else screen_class(name).ACTIONS:
            what = (action.label, action.help)
            moves = action.id in _MOVES or action.shown.isdigit()
            if not moves and what not in seen:
                seen.add(what)
                found.append(FoundAction(action, name))
    return tuple(found)


def found_actions(words: str, here: Iterable[Action]) -> list[FoundAction]:
    """For no words the actions `here`; else those of every screen that the words fit, best first."""
    near = [FoundAction(each) for each in here]
    said = _split(words)
    wanted = [each for each in said if each not in _EMPTY] or said
    if not wanted:
        return near
    own = {(each.action.label, each.action.help) for each in near}
    far = [each for each in _elsewhere() if (each.action.label, each.action.help) not in own]
    scored = [(_fits(wanted, each.action) + _HERE, each) for each in near]
    scored += [(_fits(wanted, each.action), each) for each in far]
    return [each for score, each in sorted(scored, key=lambda pair: -pair[0]) if score > 2 * _HERE]


def _fits(wanted: list[str], action: Action) -> float:
    """How well every word fits, 0 to 100; a word that fits nothing counts nothing."""
    fields = [_split(each) for each in (action.label, action.words, action.help)]
    whole = sum(_word_fits(word, fields) for word in wanted) / len(wanted)
    return whole + (10.0 if _split(action.label) == wanted else 0.0)


def _split(text: str) -> list[str]:
    return re.findall(r"\w+", text.lower())


def _word_fits(word: str, fields: list[list[str]]) -> float:
    best = 0.0
    for (whole, begun), field in zip((_LABEL, _WORDS, _HELP), fields, strict=True):
        for each in field:
            if each in (word, f"{word}s") or word == f"{each}s":
                best = max(best, whole)
            elif each.startswith(word) or (len(each) >= _LONG and word.startswith(each)):
                best = max(best, begun)
            elif len(word) >= _LONG and fuzz.ratio(word, each) >= _ALIKE:
                best = max(best, _SLIP)
    return best


#: Which action of which screen opens another one: the ways from the counter to everything.
_OPENS = {
    ("counter", "quote"): "quote", ("counter", "cover"): "cover", ("counter", "look"): "examine",
    ("counter", "treat"): "treatments", ("counter", "piece"): "item", ("counter", "day"): "day",
    ("counter", "worth"): "price_in_hand", ("counter", "strength"): "peroxide",
    ("counter", "data"): "data_files", ("quote", "sell"): "sell", ("quote", "keep"): "save_quote",
    ("quote", "kept"): "saved_quotes", ("day", "till"): "cash_box", ("day", "book"): "stock_book",
    ("day", "sales"): "sales", ("day", "people"): "people", ("day", "complete"): "complete_purchase",
    ("sales", "open"): "after_sale", ("sales", "paper"): "invoice", ("people", "open"): "person",
    ("complete_purchase", "split"): "split_lot", ("complete_purchase", "put_right"): "put_right",
    ("treatments", "open"): "treatment", ("treatment", "bath"): "treatment_checks",
    ("treatment_checks", "begin"): "treatment_timer", ("item", "mend"): "edit_item",
    ("data_files", "take"): "data_job",
}  # fmt: skip


def way_to(front: str, screen: str) -> list[tuple[str, Action]]:
    """The actions that lead from the screen in front to another, as (screen, action); [] for no way.

    From the front where a way leads on from there, else from the counter.
    """
    came: dict[str, tuple[str, str]] = {}
    for (under, action), over in _OPENS.items():
        came.setdefault(over, (under, action))
    way: list[tuple[str, Action]] = []
    while screen not in (front, "counter") and screen in came:
        screen, action = came[screen]
        way.insert(
            0, (screen, next(each for each in screen_class(screen).ACTIONS if each.id == action))
        )
    return way


def opens_a_screen(screen: str, action: str) -> bool:
    """Whether an action only opens a screen."""
    return (screen, action) in _OPENS
