"""The quote in full: read it out, take off a discount, take a line out, copy it."""

from __future__ import annotations

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Vertical

from counter.tui.board import Board
from counter.tui.widgets.action import Action, Help, back, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import WIDEST, LineList, mark
from counter.tui.widgets.text import Line, two_ends, visible
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.values.errors import InputError
from counter.values.money import pounds
from counter.values.quote import RunningQuote


class QuoteScreen(BaseScreen):
    """Works on the board's quote; shows no cost and no margin."""

    NAME = "quote"
    # fmt: off
    ACTIONS = (
        back("Back to the counter; the quote stays.", foot=7),
        *steps("line", label="row"),
        Action("remove", "delete", "take out", "Take the chosen line out.", "remove delete", foot=3,
               takes_away=True),
        Action("discount", "enter", "discount",
               "Take the discount typed: 10% or a price for the lot; empty for none.", "percent round",
               foot=1),
        Action("sell", "f6", "sell",
               "Sell what is in the quote: payment, deposit, approval, part exchange.",
               "sale pay cash card note money reserve put by deposit swap part exchange", foot=2),
        Action("keep", "f7", "keep", "Keep the quote until a day.", "save valid customer reserve hold",
               foot=4),
        Action("kept", "f4", "kept", "Find a kept quote again.", "find open quotes", foot=5),
        Action("copy", "f5", "copy", "Copy the quote as plain text.", "clipboard", foot=10),
        Action("clear", "ctrl+x", "empty", "Start an empty quote.", "new clear", foot=11, takes_away=True),
    )
    # fmt: on
    ABOUT = Help(
        "the quote",
        (
            "The lines quoted so far, as a customer may see them: no cost or margin stands here.",
            "Type a discount as 10%, or a round price for the lot as 45, and press Enter; an empty "
            "line takes the discount off again.",
            "F6 sells it. F7 keeps it for a customer until a day; F4 finds a kept one again.",
        ),
    )

    def __init__(self, board: Board) -> None:
        super().__init__()
        self.board = board
        self.selling = False

    def body(self) -> ComposeResult:
        """Lines, total, the discount to type, and what was wrong with it."""
        yield Heading("Quote")
        with Vertical():
            yield QuoteRows(self.board)
            yield Total(self.board)
            yield PromptedEntry(
                "discount", "10% or a price for the lot; empty for none", entry="discount"
            )

    def on_mount(self) -> None:
        """The discount line is ready to type in."""
        self.query_one(TextEntry).focus()

    def on_screen_resume(self) -> None:
        """In front again: the quote may be another now; once sold it has nothing more to show."""
        super().on_screen_resume()
        if self.selling and not self.board.quote.lines:
            self.dismiss()
            return
        self.selling = False
        self.redraw()

    def _now(self, quote: RunningQuote) -> None:
        self.board.quote = quote
        rows = self.query_one(QuoteRows)
        rows.styles.max_height = max(len(quote.lines), 1)  # the total stands right below
        rows.go(min(rows.cursor, max(len(quote.lines) - 1, 0)))
        rows.refresh()
        self.query_one(Total).refresh()

    def do_discount(self) -> None:
        """Take the discount as typed, or say what is wrong with it."""
        entry = self.query_one(TextEntry)
        try:
            self._now(self.board.quote.discounted(entry.value))
        except InputError as bad:
            self.say(str(bad), wrong=True)
            entry.action_select_all()  # the next key begins another
            return
        entry.value = ""

    def do_remove(self) -> None:
        """Take the chosen line out."""
        rows = self.query_one(QuoteRows)
        if rows.cursor < rows.count():
            line = self.board.quote.lines[rows.cursor]
            self._throw_out(self.board.quote.remove(line.number), f"{line.number} is taken out.")

    def do_clear(self) -> None:
        """Start an empty quote."""
        if self.board.quote.lines:
            self._throw_out(RunningQuote(), "The quote is emptied.")

    def _throw_out(self, left: RunningQuote, told: str) -> None:
        self.board.throw_out(left)
        self.redraw()
        self.say(f"{told} Ctrl+T brings it back.")

    def redraw(self) -> None:
        """The quote as it is now."""
        self._now(self.board.quote)

    def do_sell(self) -> None:
        """Sell what is in the quote."""
        if self._any_lines() and self.board.desk:
            self.selling = True
            self.app.open_screen("sell", self.board, self.board.desk)

    def do_keep(self) -> None:
        """Keep the quote until a day."""
        if self._any_lines() and self.board.desk:
            self.app.open_screen("save_quote", self.board, self.board.desk, self.say)

    def do_kept(self) -> None:
        """Find a kept quote again."""
        if self.board.desk:
            self.app.open_screen("saved_quotes", self.board, self.board.desk, self.say)

    def _any_lines(self) -> bool:
        if not self.board.quote.lines:
            self.say("There is nothing in the quote yet.", wrong=True)
        return bool(self.board.quote.lines)

    def do_copy(self) -> None:
        """Copy the plain text; terminals that allow no copying still show it here."""
        self.app.copy_to_clipboard(self.board.quote.to_read())
        self.say("The quote is copied, if this terminal allows copying.")


def _as_wide(quote: RunningQuote, width: int) -> int:
    """The prices stand just past the longest line, not at the far end of a wide screen."""
    longest = max((cell_len(visible(line.words)) for line in quote.lines), default=0)
    return min(width, max(longest + 24, 80))


class QuoteRows(LineList):
    """The lines quoted."""

    def __init__(self, board: Board) -> None:
        super().__init__()
        self.board = board

    def count(self) -> int:
        """How many lines."""
        return len(self.board.quote.lines)

    def empty(self) -> str:
        """Nothing quoted yet."""
        return "  Nothing is quoted yet: choose a stock line at the counter and press Enter."

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Number, description, price."""
        line = self.board.quote.lines[index]
        left: Line = [mark(chosen), (f"{line.number:<7} ", "accent"), (line.words, "plain")]
        price = (f" {pounds(line.price):>9}", "price")
        return two_ends(left, [price], _as_wide(self.board.quote, width))


class Total(LineWidget):
    """What it comes to, and how."""

    DEFAULT_CSS = "Total { height: 3; }"

    def __init__(self, board: Board) -> None:
        super().__init__()
        self.board = board

    def line_at(self, y: int, width: int) -> Line:
        """The sum before, when there is a discount; then the total, and room below it."""
        if y > 1:
            return []
        quote, width = self.board.quote, _as_wide(self.board.quote, min(width, WIDEST))
        if y == 1:
            return two_ends([("  Total", "strong")], [(f"{pounds(quote.total):>10}", "price")], width)
        if quote.total == quote.before:
            return []
        left: Line = [(f"  {pounds(quote.before)} {quote.discount_words()}", "dim")]
        return two_ends(left, [(f"-{pounds(quote.before - quote.total)}", "dim")], width)
