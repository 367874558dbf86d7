"""The sales, newest first: found by a few letters, settled, their papers shown."""

from __future__ import annotations

from collections.abc import Sequence

from counter.desk.trade.after_sale import SaleFound, find_sales, state_words
from counter.tui.widgets.action import Action, Help, back, own_eyes_key, steps
from counter.tui.widgets.search_screen import SearchScreen
from counter.tui.widgets.text import Line, fit, two_ends
from counter.values.dates import short_day
from counter.values.money import pounds


class SalesScreen(SearchScreen[SaleFound]):
    """Shows no cost and no margin."""

    NAME = "sales"
    # fmt: off
    ACTIONS = (
        Action("open", "enter", "open",
               "Open the sale: balance, approval kept or returned, refund, a deposit ended.",
               "settle refund balance approval deposit cancel", foot=1),
        *steps("sale"),
        Action("paper", "f5", "invoice", "The paper of the sale.", "print copy receipt bill paper", foot=2),
        own_eyes_key("what each sale came to and what is owed", foot=3),
        back(),
    )
    # fmt: on
    ABOUT = Help(
        "the sales",
        (
            "Sales, deposits, goods on approval and refunds, the newest first. Type a number, a buyer's "
            "name, a day, a stock number or a state (deposit, on approval, refund) to find one.",
            "What a sale came to is covered until F8: another customer may be looking.",
            "What becomes of a sale is noted as an entry of its own; the sale stays as it was written.",
        ),
    )
    TITLE_WORDS = "Sales, the newest first"
    HINT = "a number, a buyer, a day, a stock number"
    NOTHING = "No sale holds that."

    def found(self, words: str) -> Sequence[SaleFound]:
        """The sales that hold every word."""
        return find_sales(self.desk.trading, words)

    def open_it(self, each: SaleFound) -> None:
        """What may become of the chosen sale."""
        self.app.open_screen("after_sale", self.desk, each.sale.id)

    def do_paper(self) -> None:
        """The chosen sale's invoice."""
        if self.chosen:
            self.app.open_screen("invoice", self.desk, self.chosen.sale.id)

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
        owed = total = ""
        if self.costs:
            owed = f" owed {pounds(each.owed)}" if each.owed > 0 else ""
            total = f"{'-' if sale.refund_of else ''}{pounds(sale.total_pence)}"
        right: Line = [
            (others, "dim"),
            (f" {buyer}".rstrip(), "plain"),
            (owed, "care"),
            (f" {total:>9} ", "price"),
        ]
        return two_ends(left, right, width)
