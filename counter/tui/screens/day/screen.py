"""The day: what was taken and paid, what the box should hold, what is still to complete."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.containers import Container

from counter.desk.trade.close_day import DayRead, read_day_close
from counter.desk.trade.open_purchases import OpenPurchase
from counter.tui.screens.day.bars import day_lines
from counter.tui.widgets.action import Action, Help, back, own_eyes_key, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import EntryList, LineList
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, fit, two_ends
from counter.values.dates import day_words, short_day
from counter.values.money import pounds
from counter.values.visible import how_many

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class DayScreen(BaseScreen):
    """What was paid and the profit are shown only while asked for: a customer may be looking."""

    NAME = "day"
    # fmt: off
    ACTIONS = (
        Action("complete", "enter", "complete",
               "Complete the chosen purchase: seller, address, VAT standing, the split.",
               "owed missing fill in", foot=1),
        *steps("purchase", label="row"),
        own_eyes_key("what was paid, to whom, and the profit", foot=2),
        Action("till", "f6", "box", "The box: float, expenses, banked; count it and close the day.",
               "cash till money close count float expense petrol pitch", foot=3),
        Action("book", "f5", "book", "The stock book of a period, its totals and gaps.",
               "vat return tax period", foot=4),
        Action("sales", "f7", "sales", "Find a sale: balance, approval, refund, a deposit ended.",
               "settle after return", foot=5),
        Action("people", "f9", "people", "Who is known; complete, export, erase.",
               "sellers buyers names privacy"),
        Action("earlier", "pageup", "day before", "The day before.", "yesterday"),
        Action("later", "pagedown", "day after", "The next day.", "tomorrow"),
        back("Back to the counter.", foot=7),
    )
    # fmt: on
    ABOUT = Help(
        "the day",
        (
            "What was taken and paid, by the way it was paid, and what the box should hold: the float, "
            "cash taken, less cash paid out. PgUp looks at the day before.",
            "What was paid and the profit are covered until F8: a customer may be looking. Profit is after "
            "VAT on the lines sold; global accounting's VAT comes once a period.",
            "Below stand the purchases with something still to complete, the newest first. Enter fills "
            "them in, and shares the price of a lot.",
            "Cash with one person is added up over twelve months. When it comes near the law's limit for "
            "dealers: check with HMRC before the next payment.",
        ),
    )
    DEFAULT_CSS = """
    DayScreen #day { height: 1fr; layout: vertical; }
    DayScreen ScrollPage { height: auto; min-height: 9; max-height: 60%; }
    DayScreen #todo { height: 1fr; }
    DayScreen.wide #day { layout: horizontal; }
    DayScreen.wide ScrollPage { width: 1fr; height: 1fr; max-height: 100%; }
    DayScreen.wide #todo { width: 1fr; margin-left: 2; }
    """

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.date = desk.trading.today
        self.read: DayRead | None = None

    def body(self) -> ComposeResult:
        """The day, and what is still to complete."""
        yield Heading(self._head)
        with Container(id="day"):
            yield ScrollPage(self._lines)
            with Container(id="todo"):
                yield Heading(self._owed_head)
                yield EntryList[OpenPurchase](self._owed, "Every purchase is complete.")

    def on_resize(self, event: events.Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width >= 130, "wide")

    def on_screen_resume(self) -> None:
        """In front: a thread works the day out (again), and the costs are covered."""
        super().on_screen_resume()
        self.costs = False
        self._work_out()

    def _work_out(self) -> None:
        day = self.date

        self.in_background(
            "day",
            lambda: read_day_close(self.desk.trading, day),
            then=self._worked_out,
            still=lambda: self.date == day,
        )

    def _worked_out(self, read: DayRead) -> None:
        self.read = read
        self.query_one(EntryList).show(read.owing, stay=True)
        self.redraw()

    def redraw(self) -> None:
        """The day as it was worked out."""
        page = self.query_one(ScrollPage)
        page.show(self._lines)
        page.styles.height = None if self.has_class("wide") else len(self._lines(self.size.width))
        for rule in self.query(Heading):
            rule.refresh()

    def _head(self) -> str:
        words = f"{date.fromisoformat(self.date):%A} {day_words(self.date)}"
        closed = self.read and self.read.day.counted is not None
        return f"The day: {words}{', closed' if closed else ''}"

    def _owed_head(self) -> str:
        count = len(self.read.owing) if self.read else 0
        return f"Still to complete: {how_many(count, 'purchase')}"

    def _lines(self, width: int) -> list[Line]:
        if self.read is None:
            return [[("  Adding up …", "dim")]]
        return day_lines(self.read, width, costs=self.costs)

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        self.do_complete()

    def do_complete(self) -> None:
        """Complete the chosen purchase."""
        chosen: OpenPurchase | None = self.query_one(EntryList).chosen
        if chosen:
            self.app.open_screen("complete_purchase", self.desk, chosen.purchase.id)

    def draw_covered(self) -> None:
        """What was paid and the profit, or that F8 shows them."""
        self.query_one(EntryList).refresh()
        self.redraw()

    def do_till(self) -> None:
        """Cash in and out of the box, and the close of the day."""
        self.app.open_screen("cash_box", self.desk, self.date)

    def do_earlier(self) -> None:
        """The day before."""
        self._go(-1)

    def do_later(self) -> None:
        """The next day."""
        self._go(1)

    def _go(self, days: int) -> None:
        self.date = (date.fromisoformat(self.date) + timedelta(days=days)).isoformat()
        self.read = None
        self.redraw()
        self._work_out()

    def _owed(self, each: OpenPurchase, width: int) -> Line:
        """Number, day, what is missing; who sold it and the price only when asked for."""
        bought = each.purchase
        left: Line = [
            (fit(bought.id, 8), "accent"),
            (f"{short_day(bought.date):>11}  ", "dim"),
            (", ".join(each.owed).replace(", seller's", ","), "care"),
        ]
        if not self.costs:
            return left
        left.append((f"  {each.seller}" if each.seller else "", "plain"))
        return two_ends(left, [(f" {pounds(bought.total_pence):>10} ", "price")], width)
