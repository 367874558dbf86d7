"""The paper of a sale or a purchase: read it, copy it, write it as a page to print."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.invoices import paper_of, paper_person
from counter.reference.money import DEFER
from counter.tui.actions import bindings_on
from counter.tui.screens.save_file import SaveFileScreen
from counter.tui.text import Line, Span
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.line_widget import wrap
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.status_line import StatusLine
from counter.values.errors import UserError

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.documents.invoices import Paper


class InvoiceScreen(BaseScreen):
    """`said` is what was just noted; `own` is for the dealer's eyes and waits for its key."""

    NAME = "paper"
    BINDINGS = bindings_on("paper")

    def __init__(self, desk: Desk, number: str, said: str = "", own: Sequence[str] = ()) -> None:
        super().__init__()
        self.desk = desk
        self.number = number
        self.said = said
        self.own = own
        self.paper: Paper | str = ""

    def compose(self) -> ComposeResult:
        """The paper as it prints, and what is missing on it."""
        self._read()
        yield Heading(f"The paper of {self.number}")
        yield ScrollPage(self._lines)
        yield StatusLine()
        yield KeyBar(self.NAME)

    def _read(self) -> None:
        try:
            self.paper = paper_of(self.desk.trading, self.number)
        except UserError as trouble:
            self.paper = str(trouble)

    def on_mount(self) -> None:
        """Say what was noted."""
        own = f" {len(self.own)} for your own eyes: F4." if self.own else ""
        if self.said:
            self.say(self.said + own)

    def on_screen_resume(self) -> None:
        """A name may have been completed meanwhile."""
        super().on_screen_resume()
        self._read()
        self.query_one(ScrollPage).again()

    def _lines(self, width: int) -> list[Line]:
        if isinstance(self.paper, str):
            return [[], *_wrapped((f"{self.paper} There is no paper yet.", "dim"), width)]
        lines: list[Line] = []
        before = ""
        for row in self.paper.text().split("\n"):
            if not row and not before:
                continue  # a name not noted leaves no hole
            before = row
            ink = "strong" if row.startswith((self.paper.title, "Total ")) else "plain"
            lines += _wrapped((row, ink), width)
        lines.append([])
        if self.paper.missing:
            ways = "F7 completes the person; your own stand in the house (F2, house)."
            missing = f"! Missing on it: {', '.join(self.paper.missing)}. {ways}"
            lines += _wrapped((missing, "care"), width)
        return [*lines, *_wrapped((DEFER, "dim"), width)]

    def do_copy(self) -> None:
        """Copy the plain text."""
        if isinstance(self.paper, str):
            self.say(self.paper, wrong=True)
            return
        self.app.copy_to_clipboard(self.paper.text())
        self.say("The paper is copied, if this terminal allows copying.")

    def do_print_page(self) -> None:
        """Write it as a page to print."""
        if isinstance(self.paper, str):
            self.say(self.paper, wrong=True)
            return
        name = f"{self.paper.title.lower().replace(' ', '-')}-{self.paper.number}.html"
        self.app.push_screen(SaveFileScreen(self.desk, "the page", name, self.paper.html, self.say))

    def do_person(self) -> None:
        """Complete who stands on it, or say who that is."""
        from counter.tui.screens.after_sale import AfterSaleScreen
        from counter.tui.screens.complete_purchase import CompletePurchaseScreen
        from counter.tui.screens.person import PersonScreen

        key = paper_person(self.desk.trading, self.number)
        if key:
            self.app.push_screen(PersonScreen(self.desk, key))
        elif self.desk.ledger.row("sales", self.number):
            self.app.push_screen(AfterSaleScreen(self.desk, self.number, what="buyer"))
        else:
            self.app.push_screen(CompletePurchaseScreen(self.desk, self.number))

    def do_own(self) -> None:
        """What the dealer alone should read."""
        self.say(" ".join(self.own) or "There is nothing to mind.")

    def do_down(self) -> None:
        """Further down."""
        self.query_one(ScrollPage).turn(1)

    def do_up(self) -> None:
        """Further up."""
        self.query_one(ScrollPage).turn(-1)

    def do_page_down(self) -> None:
        """A screenful down."""
        self.query_one(ScrollPage).turn(self.query_one(ScrollPage).screenful)

    def do_page_up(self) -> None:
        """A screenful up."""
        self.query_one(ScrollPage).turn(-self.query_one(ScrollPage).screenful)


def _wrapped(span: Span, width: int) -> list[Line]:
    """A line of the paper in as many lines as it needs, spaces at its head kept."""
    text, ink = span
    head = text[: len(text) - len(text.lstrip(" "))]
    return [[("  " + head + part, ink)] for part in wrap(text.lstrip(" "), width - 3 - len(head))]
