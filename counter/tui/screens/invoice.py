"""The paper of a sale or a purchase: read it, copy it, write it as a page to print."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.invoices import paper_of, paper_person
from counter.reference.money import DEFER
from counter.tui.widgets.action import Action, Help, back, pages
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, Span, wrap
from counter.values.errors import UserError

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.documents.paper import Paper


class InvoiceScreen(BaseScreen):
    """`said` is what was just noted; `own` is for the dealer's eyes and waits for its key."""

    NAME = "invoice"
    # fmt: off
    ACTIONS = (
        Action("copy", "f5", "copy", "Copy the paper as plain text.", "clipboard", foot=1),
        Action("print_page", "f6", "PDF", "Write the paper as a PDF, or as a page to print.",
               "html page save file printer print invoice receipt bill", foot=2),
        Action("print_roll", "f9", "roll", "Write the paper as a PDF for a roll of 80 mm.",
               "receipt printer till", foot=5),
        Action("person", "f7", "person", "Complete the name and address of who stands on it.",
               "buyer seller address", foot=3),
        Action("own", "f8", "own eyes", "What the dealer alone should read: floors, cash limits.",
               "mind warning", foot=4),
        Action("down", "down", "on", "Further down."),
        Action("up", "up", "up", "Further up."),
        *pages("A screenful down.", "A screenful up."),
        back(keys="escape enter"),
    )
    # fmt: on
    ABOUT = Help(
        "the paper",
        (
            "The invoice as it prints: one price a piece and the wording the law fixes. It never shows "
            "VAT, a rate, a net price, the margin or the cost of a piece under the margin scheme.",
            "What the law asks for and is missing stands below it and is not printed. F7 completes the "
            "person; your own name, address and VAT number stand in the house's settings (F2, house).",
            "Reference only: check with HMRC or an accountant before relying on it.",
        ),
    )

    def __init__(self, desk: Desk, number: str, said: str = "", own: Sequence[str] = ()) -> None:
        super().__init__()
        self.desk = desk
        self.number = number
        self.said = said
        self.own = own
        self.paper: Paper | str = ""

    def body(self) -> ComposeResult:
        """The paper as it prints, and what is missing on it."""
        self._read()
        yield Heading(f"The paper of {self.number}")
        yield ScrollPage(self._lines)

    def _read(self) -> None:
        try:
            self.paper = paper_of(self.desk.trading, self.number)
        except UserError as trouble:
            self.paper = str(trouble)

    def on_mount(self) -> None:
        """Say what was noted."""
        own = f" {len(self.own)} for your own eyes: F8." if self.own else ""
        if self.said:
            self.say(self.said + own)

    def on_screen_resume(self) -> None:
        """A name may have been completed meanwhile."""
        super().on_screen_resume()
        self._read()
        self.query_one(ScrollPage).redraw()

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
        """Write it for A4."""
        self._write(roll=False)

    def do_print_roll(self) -> None:
        """Write it for a roll."""
        self._write(roll=True)

    def _write(self, *, roll: bool) -> None:
        if isinstance(self.paper, str):
            self.say(self.paper, wrong=True)
            return
        paper = self.paper
        name = f"{paper.title} {paper.number}{' roll' * roll}.pdf".lower().replace(" ", "-")
        name = name.replace("/", "-")
        self.app.open_screen(
            "save_file", self.desk, "the paper", name, lambda: paper.layout(roll=roll), self.say
        )

    def do_person(self) -> None:
        """Complete who stands on it, or say who that is."""
        key = paper_person(self.desk.trading, self.number)
        if key:
            self.app.open_screen("person", self.desk, key)
        elif self.desk.ledger.sales.holds(self.number):
            self.app.open_screen("after_sale", self.desk, self.number, what="buyer")
        else:
            self.app.open_screen("complete_purchase", self.desk, self.number)

    def do_own(self) -> None:
        """What the dealer alone should read."""
        self.say(" ".join(self.own) or "There is nothing to mind.")

    def do_down(self) -> None:
        """Further down."""
        self.query_one(ScrollPage).turn(1)

    def do_up(self) -> None:
        """Further up."""
        self.query_one(ScrollPage).turn(-1)


def _wrapped(span: Span, width: int) -> list[Line]:
    """A line of the paper in as many lines as it needs, spaces at its head kept."""
    text, ink = span
    head = text[: len(text) - len(text.lstrip(" "))]
    return [[("  " + head + part, ink)] for part in wrap(text.lstrip(" "), width - 3 - len(head))]
