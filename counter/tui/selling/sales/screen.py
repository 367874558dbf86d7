"""The sales, newest first: found by a few letters, settled, their papers shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.settling import SaleFound, find_sales, state_words
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
from counter.values.money import pounds

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class SalesSheet(Sheet):
    """Shows no cost and no margin."""

    PLACE = "sales"
    BINDINGS = bindings_on("sales")

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk

    def compose(self) -> ComposeResult:
        """A filter and the list."""
        yield Rule("Sales, the newest first")
        yield FindRow("a number, a buyer, a day, a stock number")
        yield Listed[SaleFound](_drawn, "No sale holds that.")
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
        found = find_sales(self.desk.dealing, self.query_one(Entry).value)
        self.query_one(Listed).show(found, stay=stay)

    def on_rows_taken(self, event: Rows.Taken) -> None:
        """Clicked twice."""
        self.do_settle()

    def do_up(self) -> None:
        """The sale before."""
        self.query_one(Listed).move(-1)

    def do_down(self) -> None:
        """The next sale."""
        self.query_one(Listed).move(1)

    def do_settle(self) -> None:
        """Open the chosen sale."""
        from counter.tui.selling.settle.screen import SettleSheet

        chosen: SaleFound | None = self.query_one(Listed).chosen
        if chosen:
            self.app.push_screen(SettleSheet(self.desk, chosen.sale.id))

    def do_paper(self) -> None:
        """The chosen sale's invoice."""
        from counter.tui.books.paper.screen import PaperSheet

        chosen: SaleFound | None = self.query_one(Listed).chosen
        if chosen:
            self.app.push_screen(PaperSheet(self.desk, chosen.sale.id))


def _drawn(each: SaleFound, width: int) -> Line:
    """Number, day, state, buyer, what is owed, the total."""
    sale = each.sale
    state = state_words(sale.status, sale.disposal, sale.refund_of)
    ink = "plain" if state == "sold" else "care"
    count = len(sale.lines)
    left: Line = [
        (fit(sale.id, 9), "accent"),
        (f"{sale.date}  ", "dim"),
        (f"{state:<12}", ink),
        (f"{count} piece{'' if count == 1 else 's'}".ljust(10), "dim"),
        (f"{each.buyer}  " if each.buyer else "", "plain"),
        (each.words, "dim"),
    ]
    owed = [(f" owed {pounds(each.owed)}", "care")] if each.owed > 0 else []
    sign = "-" if sale.refund_of else ""
    return two_ends(left, [*owed, (f" {sign + pounds(sale.total_pence):>11} ", "price")], width)
