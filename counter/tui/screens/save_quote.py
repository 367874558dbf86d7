"""Keep the quote in hand: for whom, until when, in which currency."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.quotes import quote_text
from counter.trade.quotes import note_quote
from counter.tui.board import Board
from counter.tui.widgets.action import Action, Help, back, fetch, steps
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import NOTE, FormScreen
from counter.tui.widgets.heading import Heading
from counter.values.date_words import day_of_words
from counter.values.errors import UserError
from counter.values.money import pounds
from counter.values.visible import how_many

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class SaveQuoteScreen(FormScreen):
    """Notes the board's quote, which stays in hand and knows its number; `kept` hears the sentence."""

    NAME = "save_quote"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer",
               "Take what was typed and go on; on the last line, keep the quote.", "next", foot=1),
        Action("note", "f9", "keep it", "Keep the quote.", "save note", foot=2),
        *steps("question"),
        fetch(),
        back("Back to the quote."),
    )
    # fmt: on
    ABOUT = Help(
        "keeping a quote",
        (
            "A kept quote holds its prices until the day you say. F4 on the quote finds it again, takes "
            "it into hand and so into a sale; the sale marks it taken.",
            "In another currency the sum is turned once, at your own rate of the day.",
        ),
    )

    def __init__(self, board: Board, desk: Desk, kept: Callable[[str], None]) -> None:
        super().__init__()
        self.board = board
        self.desk = desk
        self.kept = kept
        self.answers: dict[str, str] = {}

    def body(self) -> ComposeResult:
        """The sum and the questions."""
        count, total = len(self.board.quote.lines), pounds(self.board.quote.total)
        yield Heading(f"Keep a quote of {how_many(count, 'line')}, {total}")
        yield Form(self.fields(), near=True)

    def fields(self) -> tuple[Field, ...]:
        """For whom, until when, in what."""
        days = self.desk.trading.settings.business.quote_days
        until = f"The last day it holds; empty: {days} days from today."
        given = self.answers.get
        return (
            Field("customer", "for whom", given("customer", ""), (), "A name, or empty."),
            Field("until", "until", given("until", ""), (), until),
            Field("currency", "currency", given("currency", ""), (), "A code, as EUR; empty: pounds."),
            Field(NOTE, "keep it", "Enter, or F9", (), ""),
        )

    def take(self, key: str, value: str) -> str:
        """Keep an answer that can be read."""
        if key == "until" and value:
            value = day_of_words(value)
        if key == "currency" and value:
            trading = self.desk.trading
            trading.settings.on(trading.today).rate(value)
        self.answers[key] = value
        return ""

    def do_note(self) -> None:
        """Note it and copy it, and go back."""
        trading, given = self.desk.trading, self.answers.get
        try:
            quote = note_quote(
                trading.settings,
                self.board.quote,
                trading.today,
                given("customer", ""),
                given("until", ""),
                given("currency", ""),
            )
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.board.quote = self.board.quote.from_kept(quote.id)
        self.app.copy_to_clipboard(quote_text(trading, quote))
        self.dismiss()
        self.kept(f"Kept as {quote.id} until {quote.valid_until}; its text is copied.")
