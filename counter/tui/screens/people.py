"""Everybody known, by name: found by a few letters."""

from __future__ import annotations

from collections.abc import Sequence

from counter.desk.trade.people import PersonSummary, people_summaries
from counter.tui.actions import bindings_on
from counter.tui.text import Line
from counter.tui.widgets.line_widget import fit, two_ends
from counter.tui.widgets.search_screen import SearchScreen
from counter.values.dates import day_words


class PeopleScreen(SearchScreen[PersonSummary]):
    """Names and addresses are shown here and nowhere else in a list."""

    NAME = "people"
    BINDINGS = bindings_on("people")
    TITLE_WORDS = "People, by name: purchases from them, sales to them"
    HINT = "a name, a town, a number"
    NOTHING = "Nobody is noted so."

    def found(self, words: str) -> Sequence[PersonSummary]:
        """The people that hold every word."""
        return people_summaries(self.desk.trading, words)

    def open_it(self, each: PersonSummary) -> None:
        """Open the chosen person."""
        from counter.tui.screens.person import PersonScreen

        self.app.push_screen(PersonScreen(self.desk, each.person.id))

    def drawn(self, each: PersonSummary, width: int) -> Line:
        """Number, name, address, how often we dealt."""
        who = each.person
        name = who.name or (f"erased on {day_words(who.erased)}" if who.erased else "no name")
        address = (who.address or "no address", "plain" if who.address else "care")
        left: Line = [(fit(who.id, 8), "accent"), (f"{name:<20} ", "strong"), address]
        dealt = f" from {each.sold_to_us:>3}  to {each.bought_from_us:>3} "
        return two_ends(left, [(dealt, "dim")], width)
