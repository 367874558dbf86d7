"""Everybody known, by name: found by a few letters."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.folk import Acquaintance, find_folk
from counter.tui.actions import bindings_on
from counter.tui.kit.drawn import fit, two_ends
from counter.tui.kit.entry import Entry
from counter.tui.kit.find_row import FindRow
from counter.tui.kit.foot import Foot
from counter.tui.kit.listed import Listed
from counter.tui.kit.rows import Rows
from counter.tui.kit.rule import Rule
from counter.tui.kit.sheet import Sheet
from counter.tui.kit.told import Told
from counter.tui.text import Line

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class PeopleSheet(Sheet):
    """Names and addresses are shown here and nowhere else in a list."""

    PLACE = "people"
    BINDINGS = bindings_on("people")

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk

    def compose(self) -> ComposeResult:
        """A filter and the list."""
        yield Rule("People, by name")
        yield FindRow("a name, a town, a number")
        yield Listed[Acquaintance](_drawn, "Nobody is noted so.")
        yield Told()
        yield Foot(self.PLACE)

    def on_mount(self) -> None:
        """Found while it is typed."""
        entry = self.query_one(Entry)
        self.watch(entry, "value", lambda _: self._find(), init=False)
        entry.focus()

    def on_screen_resume(self) -> None:
        """In front (again)."""
        super().on_screen_resume()
        self._find(stay=True)

    def _find(self, *, stay: bool = False) -> None:
        found = find_folk(self.desk.dealing, self.query_one(Entry).value)
        self.query_one(Listed).show(found, stay=stay)

    def on_rows_taken(self, event: Rows.Taken) -> None:
        """Clicked twice."""
        self.do_open()

    def do_up(self) -> None:
        """The person before."""
        self.query_one(Listed).move(-1)

    def do_down(self) -> None:
        """The next person."""
        self.query_one(Listed).move(1)

    def do_open(self) -> None:
        """Open the chosen person."""
        from counter.tui.books.person.screen import PersonSheet

        chosen: Acquaintance | None = self.query_one(Listed).chosen
        if chosen:
            self.app.push_screen(PersonSheet(self.desk, chosen.person.id))


def _drawn(each: Acquaintance, width: int) -> Line:
    """Number, name, address, how often we dealt."""
    who = each.person
    name = who.name or (f"erased on {who.erased}" if who.erased else "no name")
    address = (who.address or "no address", "plain" if who.address else "care")
    left: Line = [(fit(who.id, 9), "accent"), (f"{name:<24} ", "strong"), address]
    dealt = f" {each.sold_to_us:>3} sold us {each.bought_from_us:>3} bought "
    return two_ends(left, [(dealt, "dim")], width)
