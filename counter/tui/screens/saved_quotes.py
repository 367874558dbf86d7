"""The kept quotes: found by a few letters, taken into hand, withdrawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.quotes import quote_text, take_kept
from counter.store.records.sale import Quote
from counter.trade.quotes import end_quote, find_quotes
from counter.tui.board import Board
from counter.tui.widgets.action import Action, Help, back, steps, take_back
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.search_screen import SearchScreen
from counter.tui.widgets.text import Line, fit, two_ends, wrap
from counter.values.dates import short_day
from counter.values.errors import UserError
from counter.values.money import pounds
from counter.values.visible import how_many

if TYPE_CHECKING:
    from counter.desk.desk import Desk

#: Where the words of a quote's line begin: after the number and the price.
_WORDS_AT = 26


class SavedQuotesScreen(SearchScreen[Quote]):
    """Taking one replaces the board's quote; `taken` hears the sentence."""

    NAME = "saved_quotes"
    # fmt: off
    ACTIONS = (
        Action("open", "enter", "take it",
               "Take the quote into hand, with its prices and its discount.", "open sell", foot=1),
        *steps("quote"),
        Action("withdraw", "ctrl+x", "withdraw", "End the quote: it no longer holds.",
               "cancel lapse delete", foot=2, takes_away=True),
        take_back(foot=3),
        back(),
    )
    # fmt: on
    ABOUT = Help(
        "kept quotes",
        (
            "The open quotes, the newest first; type a name, a number or a word to find one. Enter takes "
            "it into hand in place of what is there. One whose day is past must be quoted again.",
        ),
    )
    DEFAULT_CSS = "SavedQuotesScreen ScrollPage { height: 40%; }"
    TITLE_WORDS = "Kept quotes, the newest first"
    HINT = "a name, a number, a word of it"
    NOTHING = "No open quote holds that."

    def __init__(self, board: Board, desk: Desk, taken: Callable[[str], None]) -> None:
        super().__init__(desk)
        self.board = board
        self.taken = taken

    def below(self) -> ComposeResult:
        """The chosen quote in full."""
        yield Heading("The quote")
        yield ScrollPage(self._lines)

    def found(self, words: str) -> Sequence[Quote]:
        """The open quotes that hold every word."""
        return find_quotes(self.desk.ledger, words)

    def find(self, *, stay: bool = False) -> None:
        """The quote below follows."""
        super().find(stay=stay)
        self.query_one(ScrollPage).show(self._lines)

    def drawn(self, each: Quote, width: int) -> Line:
        """Number, day, until when it holds, for whom, the total."""
        who = self.desk.ledger.people.find(each.customer)
        over = bool(each.valid_until) and each.valid_until < self.desk.trading.today
        until = f"{'past since' if over else 'until'} {short_day(each.valid_until)}"
        left: Line = [
            (fit(each.id, 9), "accent"),
            (f"{short_day(each.date):>11}  ", "plain"),
            (until if each.valid_until else "", "care" if over else "dim"),
            (f"  {who.name if who else ''}", "plain"),
        ]
        return two_ends(left, [(f" {pounds(each.total_pence):>10} ", "price")], min(width, 100))

    def _lines(self, width: int) -> list[Line]:
        quote = self.chosen
        if quote is None:
            return []
        lines: list[Line] = []
        for row in quote_text(self.desk.trading, quote).split("\n")[1:]:
            parts = wrap(row[_WORDS_AT:], max(width - _WORDS_AT - 4, 10))
            lines.append([(f"  {row[:_WORDS_AT]}{parts[0]}", "plain")])
            lines += [[(f"  {'':{_WORDS_AT}}{part}", "plain")] for part in parts[1:]]
        return lines

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """The quote below follows."""
        self.query_one(ScrollPage).show(self._lines)

    def open_it(self, each: Quote) -> None:
        """Take it into hand."""
        try:
            running = take_kept(self.desk.trading, each.id)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        held = len(self.board.quote.lines) if self.board.quote.kept != each.id else 0
        self.board.quote = running
        instead = f" instead of {how_many(held, 'line')}" if held else ""
        self.dismiss()
        self.taken(f"{each.id} is in hand{instead}.")

    def do_withdraw(self) -> None:
        """End the chosen one; Ctrl+T takes that back."""
        quote = self.chosen
        if quote is None:
            return
        try:
            end_quote(self.desk.ledger, quote.id)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.find(stay=True)
        self.say(f"{quote.id} is withdrawn. Ctrl+T takes that back.")

    def taken_back(self, told: str) -> None:
        """A quote may have come or gone."""
        self.find(stay=True)
        self.say(told)
