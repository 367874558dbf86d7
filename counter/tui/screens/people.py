"""Everybody known, by name: found by a few letters."""

from __future__ import annotations

from collections.abc import Sequence

from counter.desk.trade.people import PersonSummary, people_summaries
from counter.tui.widgets.action import Action, Help, back, steps
from counter.tui.widgets.search_screen import SearchScreen
from counter.tui.widgets.text import Line, fit, two_ends
from counter.values.dates import day_words


class PeopleScreen(SearchScreen[PersonSummary]):
    """Names and addresses are shown here and nowhere else in a list."""

    NAME = "people"
    # fmt: off
    ACTIONS = (
        Action("open", "enter", "open", "Open the person: complete, see what is held, export, erase.",
               "details privacy export erase", foot=1),
        *steps("person"),
        back(),
    )
    # fmt: on
    ABOUT = Help(
        "the people",
        (
            "Sellers and buyers, kept apart from what was bought and sold. Type a name, a town or a "
            "number to find one.",
            "Keep this list from a customer's eyes: the details are other people's.",
        ),
    )
    TITLE_WORDS = "People, by name: purchases from them, sales to them"
    HINT = "a name, a town, a number"
    NOTHING = "Nobody is noted so."

    def found(self, words: str) -> Sequence[PersonSummary]:
        """The people that hold every word."""
        return people_summaries(self.desk.trading, words)

    def open_it(self, each: PersonSummary) -> None:
        """Open the chosen person."""
        self.app.open_screen("person", self.desk, each.person.id)

    def drawn(self, each: PersonSummary, width: int) -> Line:
        """Number, name, address, how often we dealt."""
        who = each.person
        name = who.name or (f"erased on {day_words(who.erased)}" if who.erased else "no name")
        address = (who.address or "no address", "plain" if who.address else "care")
        left: Line = [(fit(who.id, 8), "accent"), (f"{name:<20} ", "strong"), address]
        dealt = f" from {each.sold_to_us:>3}  to {each.bought_from_us:>3} "
        return two_ends(left, [(dealt, "dim")], width)
