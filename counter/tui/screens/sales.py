"""The sales, newest first: found by a few letters, settled, their papers shown."""

from __future__ import annotations

from collections.abc import Sequence

from counter.desk.trade.after_sale import SaleFound, find_sales, state_words
from counter.tui.actions import bindings_on
from counter.tui.text import Line
from counter.tui.widgets.line_widget import fit, two_ends
from counter.tui.widgets.search_screen import SearchScreen
from counter.values.dates import short_day
from counter.values.money import pounds


class SalesScreen(SearchScreen[SaleFound]):
    """Shows no cost and no margin."""

    NAME = "sales"
    BINDINGS = bindings_on("sales")
    TITLE_WORDS = "Sales, the newest first"
    HINT = "a number, a buyer, a day, a stock number"
    NOTHING = "No sale holds that."

    def found(self, words: str) -> Sequence[SaleFound]:
        """The sales that hold every word."""
        return find_sales(self.desk.trading, words)

    def open_it(self, each: SaleFound) -> None:
        """What may become of the chosen sale."""
        from counter.tui.screens.after_sale import AfterSaleScreen

        self.app.push_screen(AfterSaleScreen(self.desk, each.sale.id))

    def do_paper(self) -> None:
        """The chosen sale's invoice."""
        from counter.tui.screens.invoice import InvoiceScreen

        if self.chosen:
            self.app.push_screen(InvoiceScreen(self.desk, self.chosen.sale.id))

    def drawn(self, each: SaleFound, width: int) -> Line:
        """Number, day, state unless simply sold, the first piece; how many more, buyer, owed, total."""
        sale = each.sale
        state = state_words(sale.status, sale.disposal, sale.refund_of)
        more = len(sale.lines) - 1
        left: Line = [
            (fit(sale.id, 9), "accent"),
            (f"{short_day(sale.date):>11}  ", "dim"),
            ("" if state == "sold" else f"{state}  ", "care"),
            (each.words, "plain"),
        ]
        buyer = fit(each.buyer, 16 if width < 100 else 24) if each.buyer else ""
        others = f" +{more}" if more > 0 else ""
        owed = f" owed {pounds(each.owed)}" if each.owed > 0 else ""
        total = f"{'-' if sale.refund_of else ''}{pounds(sale.total_pence)}"
        right: Line = [
            (others, "dim"),
            (f" {buyer}".rstrip(), "plain"),
            (owed, "care"),
            (f" {total:>9} ", "price"),
        ]
        return two_ends(left, right, width)
