"""The kept quotes: found by a few letters, taken into hand, withdrawn."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.quoting import quote_text, take_kept
from counter.ledger.people import person
from counter.ledger.quotes import end_quote, find_quotes
from counter.ledger.records.sale import Quote
from counter.tui.actions import bindings_on
from counter.tui.counter.board import Board
from counter.tui.kit.drawn import fit, two_ends, wrap
from counter.tui.kit.entry import Entry
from counter.tui.kit.find_row import FindRow
from counter.tui.kit.foot import Foot
from counter.tui.kit.listed import Listed
from counter.tui.kit.page import Page
from counter.tui.kit.rows import Rows
from counter.tui.kit.rule import Rule
from counter.tui.kit.sheet import Sheet
from counter.tui.kit.told import Told
from counter.tui.text import Line
from counter.values.money import pounds
from counter.values.trouble import Trouble

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class KeptSheet(Sheet):
    """Taking one replaces the board's quote; `taken` hears the sentence."""

    PLACE = "kept"
    BINDINGS = bindings_on("kept")
    DEFAULT_CSS = "KeptSheet Page { height: 40%; }"

    def __init__(self, board: Board, desk: Desk, taken: Callable[[str], None]) -> None:
        super().__init__()
        self.board = board
        self.desk = desk
        self.taken = taken

    def compose(self) -> ComposeResult:
        """A filter, the open quotes, the chosen one in full."""
        yield Rule("Kept quotes, the newest first")
        yield FindRow("a name, a number, a word of it")
        yield Listed[Quote](self._drawn, "No open quote holds that.")
        yield Rule("The quote")
        yield Page(self._lines)
        yield Told()
        yield Foot(self.PLACE)

    def on_mount(self) -> None:
        """Found while it is typed."""
        entry = self.query_one(Entry)
        self.watch(entry, "value", lambda _: self._find(), init=False)
        entry.focus()
        self._find()

    def _find(self, *, stay: bool = False) -> None:
        found = find_quotes(self.desk.ledger, self.query_one(Entry).value)
        self.query_one(Listed).show(found, stay=stay)
        self.query_one(Page).show(self._lines)

    def _drawn(self, quote: Quote, width: int) -> Line:
        who = person(self.desk.ledger, quote.customer)
        over = bool(quote.valid_until) and quote.valid_until < self.desk.dealing.today
        until = (
            (f"past since {quote.valid_until}", "care")
            if over
            else (f"until {quote.valid_until}", "dim")
        )
        left: Line = [
            (fit(quote.id, 9), "accent"),
            (f"{quote.date}  ", "plain"),
            until,
            (f"  {who.name if who else ''}", "plain"),
        ]
        return two_ends(left, [(f" {pounds(quote.total_pence):>10} ", "price")], width)

    def _lines(self, width: int) -> list[Line]:
        quote: Quote | None = self.query_one(Listed).chosen
        if quote is None:
            return []
        rows = quote_text(self.desk.dealing, quote).split("\n")[1:]
        return [[("  " + part, "plain")] for row in rows for part in wrap(row, width - 4)]

    def on_rows_moved(self, event: Rows.Moved) -> None:
        """The quote below follows."""
        self.query_one(Page).show(self._lines)

    def on_rows_taken(self, event: Rows.Taken) -> None:
        """Clicked twice."""
        self.do_take()

    def do_up(self) -> None:
        """The one before."""
        self.query_one(Listed).move(-1)

    def do_down(self) -> None:
        """The next one."""
        self.query_one(Listed).move(1)

    def do_take(self) -> None:
        """Take it into hand."""
        quote: Quote | None = self.query_one(Listed).chosen
        if quote is None:
            return
        try:
            running = take_kept(self.desk.dealing, quote.id)
        except Trouble as trouble:
            self.say(str(trouble), wrong=True)
            return
        held = len(self.board.quote.lines) if self.board.quote.kept != quote.id else 0
        self.board.quote = running
        instead = f" instead of {held} line{'' if held == 1 else 's'}" if held else ""
        self.dismiss()
        self.taken(f"{quote.id} is in hand{instead}.")

    def do_withdraw(self) -> None:
        """End the chosen one; Ctrl+T takes that back."""
        quote: Quote | None = self.query_one(Listed).chosen
        if quote is None:
            return
        try:
            end_quote(self.desk.ledger, quote.id)
        except Trouble as trouble:
            self.say(str(trouble), wrong=True)
            return
        self._find(stay=True)
        self.say(f"{quote.id} is withdrawn. Ctrl+T takes that back.")

    def do_take_back(self) -> None:
        """Reverse the last entry."""
        self.say_done(self.desk.take_back)
        self._find(stay=True)
