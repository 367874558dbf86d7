"""Sell the quote in hand: few keys, read back before it is noted, then the invoice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.containers import Container, Vertical

from counter.desk.trade.sell import foreign_words, read_back, read_sale, sale_words, sell
from counter.tui.board import Board
from counter.tui.screens.sell_answers import questions, terms_of
from counter.tui.widgets.action import Action, Help, back, fetch, steps
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import EntryList
from counter.tui.widgets.text import Line, two_ends, wrap
from counter.values.errors import UserError
from counter.values.money import pounds
from counter.values.quote import QuoteLine, RunningQuote

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.desk.trade.sell import ReadSale


class SellScreen(FormScreen):
    """Works on the board's quote and keeps the answers there; shows no cost and no margin."""

    NAME = "sell"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer",
               "Take what was typed and go on; on the last line, note the sale.", "next", foot=1),
        Action("note", "f9", "note it", "Note the sale: it is on the disk before the screen says so.",
               "sell done save", foot=2),
        *steps("question"),
        fetch(foot=3),
        back("Back to the quote; what was answered stays."),
    )
    # fmt: on
    ABOUT = Help(
        "selling",
        (
            "The quickest sale is a digit for how it is paid, Enter, and F9. Everything else may stay "
            "empty: - takes an answer back.",
            "Paid now is empty for all of it, a sum for a part of it (the rest stays owed, or follows a "
            "deposit), or parts by different ways: cash 20, card 52.50.",
            "What is taken in part exchange is a purchase of its own at its full price: two deals, never "
            "netted. Write it like any purchase: 1d red pl 9 £20.",
            "Another currency is turned once at your own dated rate, which you note in the house's "
            "settings (F2, house). On approval nothing is sold until something is kept.",
            "No cost or margin stands here. VAT answers are reference only: check with HMRC or an "
            "accountant.",
        ),
    )
    DEFAULT_CSS = """
    SellScreen #sale { height: 1fr; layout: vertical; }
    SellScreen #goods { height: 10; }
    SellScreen.wide #sale { layout: horizontal; }
    SellScreen.wide #goods { width: 1fr; height: 1fr; }
    SellScreen.wide Form { width: 1fr; margin-left: 2; }
    """

    def __init__(self, board: Board, desk: Desk) -> None:
        super().__init__()
        self.board = board
        self.desk = desk
        self.day = desk.trading.today
        self._owed_then = False  # it was asked how it is paid

    def body(self) -> ComposeResult:
        """The pieces and the sum, the questions."""
        with Container(id="sale"):
            with Vertical(id="goods"):
                yield Heading("Sell")
                yield EntryList[tuple[QuoteLine, int]](_goods)
                yield Sum(self)
            yield Form(self.fields(), near=True)

    def on_mount(self) -> None:
        """The pieces with their prices after the discount."""
        quote, goods = self.board.quote, self.query_one(EntryList)
        goods.styles.max_height = len(quote.lines)  # the sum stands right below
        goods.show(list(zip(quote.lines, quote.prices, strict=True)))
        goods.cursor = -1  # the arrow keys are for the questions

    def on_resize(self, event: events.Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width >= 110, "wide")

    def fields(self) -> tuple[Field, ...]:
        """The questions, the last of which says what will be noted."""
        return questions(self.board.sale, self.day, read_back(self.read()))

    def read(self) -> ReadSale:
        """The sale as it would be noted. Raises UserError."""
        return read_sale(self.desk.trading, self.board.quote, terms_of(self.board.sale, self.day))

    def take(self, key: str, value: str) -> str:
        """Keep an answer that leaves the sale whole."""
        before = self.board.sale
        self._owed_then = False
        self.board.sale = {**before, key: value}
        try:
            self.read()
        except UserError:
            self.board.sale = before
            raise
        return ""

    def _unpaid(self) -> bool:
        """Whether nothing said how an outright sale is paid."""
        said = self.board.sale
        outright = said.get("how", "complete") == "complete"
        return outright and not any(said.get(each) for each in ("payment", "now", "exchange"))

    def redraw(self) -> None:
        """The sum follows the answers."""
        super().redraw()
        self.query_one(Sum).refresh()

    def do_note(self) -> None:
        """Note it; the quote in hand is empty then, and its paper is shown."""
        trading = self.desk.trading
        if self._unpaid() and not self._owed_then:
            self._owed_then = True
            owed = pounds(self.board.quote.total)
            self.query_one(Form).ask_again("payment", "")
            self.say(f"How is it paid? Answer, or note it again: {owed} are owed then.", wrong=True)
            return
        try:
            sold, exchange = sell(trading, self.read())
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        said = ". ".join(sale_words(sold, trading.settings.facts.currencies, exchange)) + "."
        self.board.quote, self.board.sale = RunningQuote(), {}
        self.app.replace_screen("invoice", self.desk, sold.sale.id, said, sold.told)


def _goods(entry: tuple[QuoteLine, int], width: int) -> Line:
    """Number, words, the price before when a discount changed it, the price."""
    line, price = entry
    before = f"{pounds(line.price)} → " if price != line.price else ""
    left: Line = [(f"{line.number:<7} ", "accent"), (line.words, "plain")]
    return two_ends(left, [(f" {before}", "dim"), (f"{pounds(price):>9} ", "price")], width)


class Sum(LineWidget):
    """The total large enough to read across the table, and what will be noted."""

    DEFAULT_CSS = "Sum { height: 6; }"

    def __init__(self, sheet: SellScreen) -> None:
        super().__init__()
        self.sheet = sheet

    def line_at(self, y: int, width: int) -> Line:
        """The discount, the total, then the sentence."""
        lines = self._lines(width)
        return lines[y] if y < len(lines) else []

    def _lines(self, width: int) -> list[Line]:
        quote = self.sheet.board.quote
        try:
            read = self.sheet.read()
        except UserError as trouble:
            return [[("  " + part, "care")] for part in wrap(str(trouble), width - 4)]
        off = quote.before - quote.total
        less: Line = [(f"  {pounds(quote.before)} {quote.discount_words()}", "dim")]
        known = self.sheet.desk.trading.settings.facts.currencies
        foreign = " ".join(foreign_words(read.order, known))
        lines = [two_ends(less, [(f"-{pounds(off)} ", "dim")], width)] if off else []
        lines.append(two_ends([("  Total", "strong")], [(f"{pounds(read.total)} ", "price")], width))
        for words, ink in ((foreign, "strong"), (read_back(read), "accent")):
            lines += [[("  " + part, ink)] for part in wrap(words, width - 4) if part]
        return lines
