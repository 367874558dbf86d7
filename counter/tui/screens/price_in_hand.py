"""What a stamp in the hand might fetch and what may be paid for it; nothing shows until asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.describe.description import short_line
from counter.desk.stock.item_from_text import ReadPiece
from counter.desk.trade.pricing import read_wanted
from counter.desk.trade.trading import Priced
from counter.judge.price.offer import Wanted
from counter.judge.price.price_chart import picture
from counter.tui.screens.item.price import price_lines
from counter.tui.widgets.action import Action, Help, back, own_eyes_key, pages
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry

if TYPE_CHECKING:
    from counter.desk.desk import Desk

#: What a customer may read: cautions that begin so name no figure.
_FOR_ALL = ("A certificate", "Not priced")


class PriceInHandScreen(BaseScreen):
    """The line in hand priced; the customer sees what needs a certificate and what is not priced."""

    NAME = "price_in_hand"
    # fmt: off
    ACTIONS = (
        Action("want", "enter", "wanted profit",
               "Work the offer out anew for the profit typed, in pounds or per cent.", "profit margin",
               foot=1),
        own_eyes_key("what it might fetch and what may be paid",
                     words="price offer fetch pay worth value suggestion", foot=2),
        *pages("A page further down.", "A page further up."),
        back("Back to the counter."),
    )
    # fmt: on
    ABOUT = Help(
        "what it is worth",
        (
            "What may I pay, and what will it fetch: for the stamp of the line in hand, whether it is "
            "yours or not, from your own sales of the same thing. Nothing stands here until F8 asks for "
            "it, because the seller may be looking.",
            "The offer is the highest price that leaves the profit you want after VAT, at the marked price "
            "and after the usual haggling. Type another profit, £30 or 25%, and Enter.",
            "What needs a certificate says so first. What no sum takes is said: not priced. Without three "
            "sales alike nothing is suggested and no offer is made.",
        ),
    )

    def __init__(self, desk: Desk, read: ReadPiece) -> None:
        super().__init__()
        self.desk = desk
        self.read = read
        self.priced: Priced | None = None
        self.why = "Being worked out …"
        self.wanted: Wanted | None = None

    def body(self) -> ComposeResult:
        """The piece, the page, the wanted profit."""
        yield Heading(lambda: short_line(self.read.item, self.desk.names))
        yield ScrollPage(self._lines)
        yield PromptedEntry("wanted profit", "£30 or 25%, then Enter", entry="wanted")

    def on_mount(self) -> None:
        """The price follows in a moment."""
        self.query_one(TextEntry).focus()

        def show(priced: Priced | None, why: str = "") -> None:
            self.priced, self.why = priced, why
            self.query_one(ScrollPage).redraw()

        self.in_background(
            "price",
            lambda: self.desk.trading.priced(self.read.item, self.read.reading),
            then=show,
            failed=lambda sentence: show(None, sentence),
        )

    def _lines(self, width: int) -> list[Line]:
        if self.priced is None:
            return prose(self.why, width, "dim")
        made = self.priced.made
        if not self.costs:
            shown = [each for each in made.judgement.cautions if each.startswith(_FOR_ALL)]
            lines = [
                line for each in shown for line in prose(each, width, "care", head=("  ! ", "care"))
            ]
            return [
                *lines,
                *prose("What it might fetch is for your own eyes: F8 shows it.", width, "dim"),
            ]
        drawn = picture(made, self.read.item.asking)
        cited = Cited(self.desk.library.money.sources)
        return [*self._offer(width), *self._ways(width), *price_lines(made, drawn, cited, width)]

    def _offer(self, width: int) -> list[Line]:
        """What may be paid; no offer stands without a suggestion."""
        marked = self.priced.made.marked if self.priced else None
        if marked is None:
            return prose("No offer: nothing can be suggested.", width, "care")
        return prose(self.desk.trading.offer(marked, self.wanted).judgement.verdict, width, "strong")

    def _ways(self, width: int) -> list[Line]:
        ways = self.priced.ways if self.priced else None
        return prose(ways.words, width) if ways else []

    def do_want(self) -> None:
        """Another profit is wanted: the offer follows."""
        typed = self.query_one(TextEntry).value.strip()
        self.wanted = read_wanted(typed) if typed else None
        self.query_one(ScrollPage).redraw()
        if not self.costs:
            self.say("The offer is worked out anew; F8 shows it.")

    def do_costs(self) -> None:
        """What it might fetch and what may be paid: shown, or hidden again."""
        self.query_one(ScrollPage).top = 0
        super().do_costs()
