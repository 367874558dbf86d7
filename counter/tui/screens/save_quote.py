"""Keep the quote in hand: for whom, until when, in which currency."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.quotes import quote_text
from counter.trade.quotes import note_quote
from counter.tui.actions import bindings_on
from counter.tui.screens.counter.board import Board
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import NOTE, FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.status_line import StatusLine
from counter.values.counted import how_many
from counter.values.date_words import day_of_words
from counter.values.errors import UserError
from counter.values.money import pounds

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class SaveQuoteScreen(FormScreen):
    """Notes the board's quote, which stays in hand and knows its number; `kept` hears the sentence."""

    NAME = "keep"
    BINDINGS = bindings_on("keep")

    def __init__(self, board: Board, desk: Desk, kept: Callable[[str], None]) -> None:
        super().__init__()
        self.board = board
        self.desk = desk
        self.kept = kept
        self.answers: dict[str, str] = {}

    def compose(self) -> ComposeResult:
        """The sum and the questions."""
        count, total = len(self.board.quote.lines), pounds(self.board.quote.total)
        yield Heading(f"Keep a quote of {how_many(count, 'line')}, {total}")
        yield Form(self.fields(), near=True)
        yield StatusLine()
        yield KeyBar(self.NAME)

    def fields(self) -> tuple[Field, ...]:
        """For whom, until when, in what."""
        days = self.desk.trading.house.business.quote_days
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
            self.desk.trading.house.exchange(value, self.desk.trading.today)
        self.answers[key] = value
        return ""

    def do_note(self) -> None:
        """Note it and copy it, and go back."""
        trading, given = self.desk.trading, self.answers.get
        try:
            quote = note_quote(
                trading.house,
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
