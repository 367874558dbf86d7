"""Complete a purchase: each answer is noted at once; the lot's split and its paper are a key away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.open_purchases import (
    CHOICES,
    QUESTIONS,
    answers,
    note_answers,
    owing,
    owing_words,
)
from counter.tui.widgets.action import Action, Help, back, fetch, own_eyes_key, steps, take_back
from counter.tui.widgets.form import Field, Form, FormRows
from counter.tui.widgets.form_screen import FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line

if TYPE_CHECKING:
    from counter.desk.desk import Desk

_HINTS = {
    "seller": "A name, or the number of a person already known.",
    "address": "As it stands on the purchase invoice.",
    "seller_kind": "VAT shown and import keep a piece off the margin scheme.",
    "invoice_number": "Of the seller's own invoice; bought from the public, yours is made out.",
}


class CompletePurchaseScreen(FormScreen):
    """One purchase and what the book still wants of it."""

    NAME = "complete_purchase"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "note it", "Note what was typed for the line in hand; - empties it.",
               "save", foot=1),
        *steps("line"),
        fetch(),
        Action("split", "f6", "split", "Share the lot's price between its pieces, once.",
               "lot break expected by hand", foot=2),
        Action("paper", "f5", "paper", "The purchase invoice made out for a private seller.",
               "invoice print", foot=3),
        Action("put_right", "f7", "put right", "What was noted wrongly: price, day, seller, scheme.",
               "correct mistake wrong"),
        own_eyes_key("what was paid"),
        take_back(foot=4),
        back(),
    )
    # fmt: on
    ABOUT = Help(
        "completing a purchase",
        (
            "What the stock book asks for and was not said at the stall. Each answer is noted at once as "
            "an entry of its own, and Ctrl+T takes the last one back.",
            "The address belongs to the person, who is kept apart from the purchase. A seller who shows "
            "VAT on the paper keeps the pieces off the margin scheme: ask HMRC or an accountant.",
        ),
    )
    DEFAULT_CSS = "CompletePurchaseScreen ScrollPage { height: 5; }"

    def __init__(self, desk: Desk, number: str) -> None:
        super().__init__()
        self.desk = desk
        self.number = number

    def body(self) -> ComposeResult:
        """What was bought, what is owed, the questions."""
        yield Heading(f"Complete purchase {self.number}")
        yield ScrollPage(self._lines)
        yield Form(self.fields(), near=True)

    def on_mount(self) -> None:
        """What is wanted first is in hand."""
        first = next((at for at, each in enumerate(self.fields()) if each.needed), 0)
        self.query_one(FormRows).go(first)

    def on_screen_resume(self) -> None:
        """The lot may be split now."""
        super().on_screen_resume()
        self.redraw()

    def _lines(self, width: int) -> list[Line]:
        known = owing(self.desk.trading, self.number)
        lines: list[Line] = [[("  " + owing_words(known, costs=self.costs), "strong")]]
        lines += prose(known.what, width)[:1]
        left = f"Still owed: {', '.join(known.owed)}." if known.owed else "Complete."
        lines += prose(left, width, "care" if known.owed else "good")
        if known.unsplit:
            lines[-1].append((" F6 splits it.", "accent"))
        return lines

    def fields(self) -> tuple[Field, ...]:
        """The questions with what is known; what is owed is marked."""
        known = answers(self.desk.trading, self.number)
        owed = owing(self.desk.trading, self.number).owed
        return tuple(
            Field(
                key,
                label,
                known[key],
                CHOICES.get(key, ()),
                _HINTS.get(key, ""),
                needed=said in owed and bool(said),
            )
            for key, label, said in QUESTIONS
        )

    def take(self, key: str, value: str) -> str:
        """Note it."""
        return note_answers(self.desk.trading, self.number, {key: value})

    def redraw(self) -> None:
        """What is owed follows."""
        super().redraw()
        self.query_one(ScrollPage).redraw()

    def do_split(self) -> None:
        """Share the lot's price between its pieces."""
        self.app.open_screen("split_lot", self.desk, self.number, self.say)

    def do_put_right(self) -> None:
        """What was noted wrongly, by an entry of its own."""
        self.app.open_screen("put_right", self.desk, self.number)

    def do_paper(self) -> None:
        """The purchase invoice made out for a private seller."""
        self.app.open_screen("invoice", self.desk, self.number)
