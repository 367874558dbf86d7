"""What became of a sale: the balance, approval kept or sent back, a refund, a deposit ended."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.describe.description import short_line
from counter.desk.trade.after_sale import look_up_sale, pieces_left, settle_sale, state_words, ways_open
from counter.desk.trade.sell import sale_words
from counter.tui.screens.after_sale_answers import after_sale_questions, read_pieces, settlement
from counter.tui.widgets.action import Action, Help, back, fetch, steps, take_back
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import WIDEST
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, fit, two_ends
from counter.values.dates import day_words
from counter.values.errors import UserError
from counter.values.money import pounds, read_pence

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class AfterSaleScreen(FormScreen):
    """One sale in full, without cost or margin, and what may become of it."""

    NAME = "after_sale"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer", "Take what was typed and go on; on the last line, note it.",
               "next", foot=1),
        Action("note", "f9", "note it", "Note what became of it.", "save done", foot=2),
        *steps("question"),
        fetch(),
        Action("paper", "f5", "paper", "The invoice or the credit note.", "print copy invoice receipt",
               foot=3),
        Action("put_right", "f7", "put right", "What was noted wrongly: price, day, way, buyer.",
               "correct mistake wrong"),
        take_back(foot=4),
        back("Back to the sales."),
    )
    # fmt: on
    ABOUT = Help(
        "what became of a sale",
        (
            "A deposit becomes the sale on the day its balance is paid, or falls through and is paid "
            "back. Of goods on approval what is kept is sold and the rest is back in stock.",
            "A refund is an entry of its own with its reason: the pieces come back under their own "
            "numbers and cost, and the refund's period of the book is corrected.",
        ),
    )
    DEFAULT_CSS = "AfterSaleScreen ScrollPage { height: 1fr; } AfterSaleScreen Form { height: 11; }"

    def __init__(self, desk: Desk, number: str, *, what: str = "") -> None:
        super().__init__()
        self.desk = desk
        self.number = number
        self.answers = {"what": what}
        self._look()

    def _look(self) -> None:
        self.found = look_up_sale(self.desk.trading, self.number)
        self.ways = ways_open(self.desk.trading, self.found.sale)
        self.left = pieces_left(self.desk.trading, self.found.sale)

    def body(self) -> ComposeResult:
        """The sale, then the questions."""
        yield Heading(self._head)
        yield ScrollPage(self._lines)
        yield Heading(lambda: "What became of it" if self.ways else "Nothing more can become of it")
        yield Form(self.fields(), near=True)

    def _head(self) -> str:
        sale = self.found.sale
        state = state_words(sale.status, sale.disposal, sale.refund_of)
        of = f" of {sale.refund_of}" if sale.refund_of else ""
        return f"{sale.id}, {day_words(sale.date)}: {state}{of}"

    def _lines(self, width: int) -> list[Line]:
        sale, width = self.found.sale, min(width, WIDEST)
        lines: list[Line] = []
        for place, line in enumerate(sale.lines, 1):
            back = line.item not in self.left
            left: Line = [
                (f"  {place} ", "dim"),
                (fit(line.item, 8), "accent"),
                ("came back  " if back else "", "care"),
                (line.words or self._words(line.item), "plain"),
            ]
            price = pounds(line.price_pence - line.discount_pence)
            lines.append(two_ends(left, [(f" {price:>10} ", "price")], width))
        if sale.postage_pence:
            lines.append(_sum("postage charged", sale.postage_pence, width))
        lines.append(_sum("total", sale.total_pence, width))
        for paid in sale.made:
            lines.append(_sum(f"{day_words(paid.date)}  {paid.method}", paid.pence, width))
        if self.found.owed > 0:
            lines.append(_sum("still owed", self.found.owed, width, "care"))
        who = f"Buyer: {self.found.buyer}." if self.found.buyer else "The buyer is not noted."
        due = f" Due back by {day_words(sale.due_back)}." if sale.status == "on approval" else ""
        why = f" Because: {sale.reason}." if sale.reason else ""
        return [*lines, *prose(who + due + why, width, "dim")]

    def _words(self, number: str) -> str:
        item = self.desk.item(number)
        return short_line(item, self.desk.names) if item else ""

    def fields(self) -> tuple[Field, ...]:
        """The questions for the way chosen."""
        return after_sale_questions(self.ways, self.answers)

    def take(self, key: str, value: str) -> str:
        """Keep an answer that can be read."""
        if key == "pieces":
            read_pieces(self.found.sale, value)
        if key == "sum" and value:
            read_pence(value, "a sum")
        self.answers[key] = value
        return ""

    def do_note(self) -> None:
        """Note it as an entry of its own."""
        trading = self.desk.trading
        if not self.ways:
            return
        try:
            how = settlement(self.found.sale, self.ways, self.answers, trading.today)
            sold = settle_sale(trading, self.number, how)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.answers = {}
        self.redraw()
        self.query_one(Form).ask_again("what", "")  # Enter once more must not note once more
        said = ". ".join(sale_words(sold, trading.settings.facts.currencies)) + "."
        self.say(" ".join((said, *sold.told, "Ctrl+T takes it back.")))

    def redraw(self) -> None:
        """The sale as it stands now."""
        self._look()
        self.query_one(ScrollPage).redraw()
        for rule in self.query(Heading):
            rule.refresh()
        super().redraw()

    def on_screen_resume(self) -> None:
        """It may have been put right."""
        super().on_screen_resume()
        self.redraw()

    def do_put_right(self) -> None:
        """What was noted wrongly, by an entry of its own."""
        self.app.open_screen("put_right", self.desk, self.number)

    def do_paper(self) -> None:
        """The invoice or the credit note."""
        self.app.open_screen("invoice", self.desk, self.number)

    def taken_back(self, told: str) -> None:
        """The sale itself may have gone."""
        if not self.desk.ledger.sales.holds(self.number):
            self.dismiss()
            return
        super().taken_back(told)


def _sum(label: str, pence: int, width: int, ink: str = "dim") -> Line:
    return two_ends([(f"    {label}", ink)], [(f" {pounds(pence):>10} ", "strong")], width)
