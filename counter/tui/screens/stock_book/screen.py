"""The stock book of a period: its lines, its totals for the return, what is missing, files of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.containers import Container

from counter.desk.trade.after_sale import sale_with
from counter.desk.trade.stock_book import PeriodRead, read_book
from counter.trade.stock_book import BookLine
from counter.tui.screens.stock_book.views import (
    column_heads,
    gap_spans,
    line_in_full,
    line_spans,
    totals_in_full,
)
from counter.tui.widgets.action import Action, Help, back, own_eyes_key, pages, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import WIDEST, EntryList, LineList
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, two_ends
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.values.dates import short_day
from counter.values.errors import UserError
from counter.values.periods import neighbour, read_period_words

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.documents.layout import Layout

VIEWS = ("lines", "totals", "gaps")


class StockBookScreen(BaseScreen):
    """The book of a period, worked out in a thread; Tab turns lines, totals, gaps."""

    NAME = "stock_book"
    # fmt: off
    ACTIONS = (
        Action("take", "enter", "period",
               "Go to the period typed; with none typed, complete the chosen line's purchase.",
               "quarter month year dates complete gap missing", foot=1),
        Action("view", "tab", "totals, gaps", "Turn between the lines, the totals and what is missing.",
               "sums boxes return missing", foot=2),
        Action("before", "f3", "before", "The period before.", "earlier previous", foot=10),
        Action("after", "f4", "after", "The period after.", "later next", foot=11),
        Action("csv", "f5", "CSV", "Every line as a CSV file.", "spreadsheet export", foot=3),
        Action("print_page", "f6", "PDF",
               "The period as a PDF or a page to print; of the gaps, a sheet of their own.",
               "html page printer", foot=4),
        own_eyes_key("what was paid and taken, margins, VAT, and with whom", foot=5),
        *steps("line"),
        *pages("A screenful down.", "A screenful up."),
        back(foot=7),
    )
    # fmt: on
    ABOUT = Help(
        "the stock book",
        (
            "A line for every piece that came in or went out in the period. Type a period: q1 2026, "
            "apr 2026, 2026, tax 2025 (from 6 April 2025), or 1.4.26 to 30.6.26. F3 and F4 "
            "go to the one before and the one after.",
            "Under the margin scheme each line bears VAT on its own margin, and a loss offsets nothing. "
            "Global accounting is worked out once on the period. The totals are for stock alone: add "
            "overheads and other supplies in your return.",
            "What was paid, taken and earned, and with whom, is covered until F8: a customer may be looking.",
            "A line with ! lacks something the law asks for. Tab lists them; Enter fills them in.",
            "Reference only: check with HMRC or an accountant before relying on it.",
        ),
    )
    DEFAULT_CSS = """
    StockBookScreen #book { height: 1fr; layout: vertical; }
    StockBookScreen #list { height: 1fr; }
    StockBookScreen #full { height: 5; }
    StockBookScreen #sums { height: 1fr; display: none; }
    StockBookScreen.totals #list { display: none; }
    StockBookScreen.totals #sums { display: block; }
    StockBookScreen.wide #book { layout: horizontal; }
    StockBookScreen.wide #list { width: 1fr; display: block; }
    StockBookScreen.wide #sums { width: 46; margin-left: 2; display: block; }
    """

    def __init__(self, desk: Desk, period: str = "") -> None:
        super().__init__()
        self.desk = desk
        months = desk.trading.settings.business.period_months
        self.since, self.until = read_period_words(period, desk.trading.today, months)
        self.read: PeriodRead | None = None
        self.view = "lines"

    def body(self) -> ComposeResult:
        """The period, the lines or what is asked of them, the chosen line in full."""
        yield Heading(self._head)
        yield PromptedEntry(
            "period", "q2 2026, apr 2026, 2026, tax 2025, or 1.4.26 to 30.6.26", entry="period"
        )
        with Container(id="book"):
            with Container(id="list"):
                yield Heads(self)
                yield EntryList[BookLine](self._spans, "Nothing came in or went out in this period.")
                yield ScrollPage(
                    lambda width: line_in_full(self._chosen(), width, costs=self.costs), id="full"
                )
            yield ScrollPage(self._sums, id="sums")

    def on_mount(self) -> None:
        """The period's line is ready to type in."""
        self.query_one(TextEntry).focus()

    def on_screen_resume(self) -> None:
        """In front (again): what was completed meanwhile is in it."""
        super().on_screen_resume()
        self._work_out()

    def on_resize(self, event: events.Resize) -> None:
        """Lines and totals side by side where there is room."""
        self.set_class(event.size.width >= 130, "wide")

    def _head(self) -> str:
        count = f", {len(self.read.lines):,} lines" if self.read else ""
        period = f"{short_day(self.since).strip()} to {short_day(self.until).strip()}"
        return f"The stock book {period}{count}: {self.view}"

    def _spans(self, line: BookLine, width: int) -> Line:
        spans = gap_spans if self.view == "gaps" else line_spans
        return spans(line, width, costs=self.costs)

    def _sums(self, width: int) -> list[Line]:
        return totals_in_full(self.read, width, costs=self.costs) if self.read else []

    def _chosen(self) -> BookLine | None:
        chosen: BookLine | None = self.query_one(EntryList).chosen
        return chosen

    def _work_out(self) -> None:
        since, until = self.since, self.until

        def tell(words: str) -> None:
            self.call_later(self._so_far, words)

        self.in_background(
            "stock book",
            lambda: read_book(self.desk.trading, since, until, tell),
            then=self._worked_out,
            still=lambda: (since, until) == (self.since, self.until),
            keys_wait=True,
        )

    def _so_far(self, words: str) -> None:
        if self.read is None:
            self.say(words)

    def _worked_out(self, read: PeriodRead) -> None:
        if self.read is None:
            self.say("")
        self.read = read
        self.redraw(stay=True)

    def redraw(self, *, stay: bool = False) -> None:
        """The lines, totals or gaps of the book that was worked out."""
        shown: tuple[BookLine, ...] = ()
        if self.read:
            shown = self.read.gaps if self.view == "gaps" else self.read.lines
        self.query_one(EntryList).nothing = (
            "Nothing is missing." if self.view == "gaps" else "Nothing came in or went out."
        )
        self.query_one(EntryList).show(shown, stay=stay)
        self.set_class(self.view == "totals", "totals")
        self.query_one(Heads).refresh()
        self.query_one(Heading).refresh()
        for page in self.query(ScrollPage):
            page.redraw()

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """The line in full follows."""
        self.query_one("#full", ScrollPage).redraw()

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        self._complete()

    def _go(self, since: str, until: str) -> None:
        self.since, self.until, self.read = since, until, None
        self.redraw()
        self._work_out()

    def do_take(self) -> None:
        """The period typed; with none typed, complete the purchase of the chosen line."""
        entry = self.query_one(TextEntry)
        if not entry.value.strip():
            self._complete()
            return
        months = self.desk.trading.settings.business.period_months
        try:
            period = read_period_words(entry.value, self.desk.trading.today, months)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        entry.value = ""
        self._go(*period)

    def _complete(self) -> None:
        """What is missing on the line: of the sale when the purchase side is whole."""
        line = self._chosen()
        item = self.desk.item(line.stock_number) if line else None
        if line and line.sale_date and line.gaps and line.seller_name and line.seller_address:
            sale = sale_with(self.desk.trading, line.stock_number, line.sale_date)
            self.app.open_screen("after_sale", self.desk, sale, what="" if line.buyer_name else "buyer")
        elif item and item.purchase:
            self.app.open_screen("complete_purchase", self.desk, item.purchase)
        elif line:
            self.say(f"No purchase is noted for {line.stock_number}.", wrong=True)

    def do_view(self) -> None:
        """Lines, totals, gaps."""
        views = [each for each in VIEWS if not (each == "totals" and self.has_class("wide"))]
        now = views.index(self.view) if self.view in views else 0
        self.view = views[(now + 1) % len(views)]
        self.redraw()

    def do_before(self) -> None:
        """The period before."""
        self._go(*neighbour(self.since, self.until, -1))

    def do_after(self) -> None:
        """The period after."""
        self._go(*neighbour(self.since, self.until, 1))

    def draw_covered(self) -> None:
        """The lines, the totals and the heads over them."""
        super().draw_covered()
        self.query_one(Heads).refresh()

    def do_up(self) -> None:
        """The line before."""
        self._move(-1)

    def do_down(self) -> None:
        """The next line."""
        self._move(1)

    def do_page_up(self) -> None:
        """A screenful up."""
        self._move(-self.query_one(EntryList).screenful)

    def do_page_down(self) -> None:
        """A screenful down."""
        self._move(self.query_one(EntryList).screenful)

    def _move(self, by: int) -> None:
        if self.view == "totals" and not self.has_class("wide"):
            self.query_one("#sums", ScrollPage).turn(by)
        else:
            self.query_one(EntryList).move(by)

    def do_csv(self) -> None:
        """Every line as a CSV file."""
        if self.read:
            self._file("the book as CSV", "csv", self.read.csv)

    def do_print_page(self) -> None:
        """The period to print, or what is missing where that is shown."""
        if self.read and self.view == "gaps":
            self._file("what is missing", "pdf", self.read.gaps_layout, "gaps")
        elif self.read:
            self._file("the book", "pdf", self.read.layout)

    def _file(self, what: str, kind: str, make: Callable[[], str | Layout], head: str = "book") -> None:
        name = f"{head}-{self.since}-{self.until}.{kind}"
        self.app.open_screen("save_file", self.desk, what, name, make, self.say)


class Heads(LineWidget):
    """The names of the columns."""

    DEFAULT_CSS = "Heads { height: 1; }"

    def __init__(self, sheet: StockBookScreen) -> None:
        super().__init__()
        self.sheet = sheet

    def line_at(self, y: int, width: int) -> Line:
        """The names; of the gaps, what they are."""
        if self.sheet.view == "gaps":
            words = f"  {'number':<9}{'bought':<11}what is missing: Enter completes it"
            return two_ends([(words, "head")], [("paid " if self.sheet.costs else "", "head")], width)
        return column_heads(min(width, WIDEST), costs=self.sheet.costs)
