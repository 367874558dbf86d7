"""The opening screen's flow: a line is typed, everything answers, Enter quotes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.message import Message

from counter.tui.board import BOUGHT, Board, bare_number
from counter.tui.screens.counter.bought_pane import BoughtPane
from counter.tui.screens.counter.card_pane import CardPane
from counter.tui.screens.counter.keys import ABOUT_COUNTER, COUNTER_ACTIONS
from counter.tui.screens.counter.panes import Candidates, QuoteLineBar, ReadBack, Stock, Strip
from counter.tui.screens.counter.read_only import ReadOnlyBar
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.values.errors import InputError
from counter.values.quote import quote_to_row

#: After so many seconds without a key the best next look is worked out.
RESTED = 0.3
#: A look that tells less (in bits) is not worth a hint.
LEAST_BITS = 0.3

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.judge.identify import Support


class CounterScreen(BaseScreen):
    """One line to ask; the stamp and its ink above, the stock and the quote below."""

    NAME = "counter"
    ACTIONS = COUNTER_ACTIONS
    ABOUT = ABOUT_COUNTER

    class StockGrew(Message):
        """More of the stock can be searched now."""

    def __init__(self) -> None:
        super().__init__()
        self.board = Board()
        self._again = ""  # the purchase line that was taken back

    def body(self) -> ComposeResult:
        """The ask line on top, the foot line below, the panes between."""
        board = self.board
        self.panes = (
            ReadBack(board),
            Candidates(board, captions=True),
            CardPane(board),
            Strip(board),
            Heading(lambda: self.query_one(Stock).head(), id="stock-head"),
            Stock(board),
            BoughtPane(board),
            QuoteLineBar(board),
        )
        read_back, candidates, card, *below = self.panes
        yield ReadOnlyBar(board)
        yield PromptedEntry("ask", entry="ask")
        yield read_back
        with Horizontal(id="upper"):
            yield candidates
            yield card
        yield from below

    def on_mount(self) -> None:
        """Watch the line's value itself: waiting for its message would cost a frame."""
        ask = self.query_one("#ask", TextEntry)
        self._rest = self.set_interval(RESTED, self._rested, pause=True)
        self.watch(ask, "value", self._typed, init=False)
        ask.focus()

    def on_resize(self, event: events.Resize) -> None:
        """A taller screen gives the card more lines and the strip its reasons."""
        rows = event.size.height
        self.query_one("#upper").styles.height = max(9, rows * 2 // 5 - 2)
        self.query_one(Strip).styles.height = 4 if rows >= 34 else 1
        self.query_one(Candidates).styles.width = min(max(event.size.width * 2 // 5, 45), 60)
        self.query_one(CardPane).styles.margin = (0, 0, 0, 2 if event.size.width >= 110 else 0)

    # The line

    def _typed(self, text: str) -> None:
        if text == "?":
            self.query_one("#ask", TextEntry).value = ""
            self.app.action_do("help")
            return
        self.board.type(text)
        for pane in (self.query_one(Candidates), self.query_one(Stock)):
            pane.top = pane.cursor = 0
        self.query_one(CardPane).top = 0
        self._show_bought(self.board.buying)
        self.refresh_panes()
        self._rest.reset()

    def _rested(self) -> None:
        """The keys rest: a thread works out the best next look."""
        self._rest.pause()
        asked = self.board.asked
        if asked is None or self.board.buying or not asked.candidates or self.app.screen is not self:
            return

        def look() -> tuple[str, tuple[Support, ...]]:
            best = next((each for each in asked.next_looks() if each.bits >= LEAST_BITS), None)
            return best.words if best else "", asked.supports

        def show(found: tuple[str, tuple[Support, ...]]) -> None:
            self.board.next_look, self.board.supports = found
            self.query_one(ReadBack).refresh()
            self.query_one(Candidates).refresh()

        self.in_background(
            "next look",
            look,
            then=show,
            still=lambda: asked is self.board.asked and self.app.screen is self,
        )

    def _show_bought(self, buying: bool) -> None:
        if self.query_one(BoughtPane).display != buying:
            self.query_one(BoughtPane).display = buying
            self.query_one(Stock).display = not buying

    def refresh_panes(self) -> None:
        """Draw every pane again from the board."""
        for pane in self.panes:
            pane.refresh()
        self.query_one(CardPane).redraw()

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another candidate was chosen: its card and its strip."""
        if isinstance(event.rows, Candidates):
            self.board.chosen_issue = event.index
            self.query_one(CardPane).redraw()
            self.query_one(Strip).refresh()

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """A row was clicked twice."""
        if isinstance(event.rows, Stock):
            self.do_take()

    # The desk

    def desk_open(self, desk: Desk) -> None:
        """The desk is open: everything typed so far is answered now."""
        self.board.desk, self.board.trouble = desk, ""
        self.board.forget()
        self.query_one(ReadOnlyBar).redraw()
        self.board.quote = desk.kept_quote()
        line = desk.draft("line")
        if line and not self.board.text:
            ask = self.query_one("#ask", TextEntry)
            ask.value = line["text"]
            ask.cursor_position = len(ask.value)
        self.refresh_panes()
        self.tell_more()

    def on_read_only_bar_others_noted(self) -> None:
        """The window that writes has noted something: it shows here too."""
        self.redraw()

    def desk_shut(self, sentence: str) -> None:
        """The desk could not be opened, or a part of the reference is missing."""
        if self.board.desk:
            self.say(sentence, wrong=True)
            return
        self.board.trouble = sentence
        self.refresh_panes()

    def desk_away(self) -> None:
        """The desk is shut for a while: nothing is asked of it."""
        self.board.desk = None
        self.board.forget()

    def on_counter_screen_stock_grew(self) -> None:
        """More stock has been indexed."""
        self.board.forget()
        self.refresh_panes()

    def keep_draft(self) -> None:
        """Keep the quote in hand, and a purchase that is typed but not noted, for the next time."""
        if not self.board.desk:
            return
        quote = quote_to_row(self.board.quote) if self.board.quote.lines else None
        self.board.desk.keep_draft("quote", quote)
        if self.board.cover:
            self.board.desk.keep_draft(*self.board.cover.draft())
        self.board.desk.keep_draft("line", {"text": self.board.text} if self.board.buying else None)

    # The keys

    def list_in_hand(self) -> LineList:
        """The list that the arrow keys move: what it is, or the stock."""
        return self.query_one(Candidates if self.board.side == "stamp" else Stock)

    def do_side(self) -> None:
        """The arrow keys move the other list."""
        self.board.side = "stock" if self.board.side == "stamp" else "stamp"
        self.refresh_panes()

    def page_in_hand(self) -> ScrollPage:
        """The card."""
        return self.query_one(CardPane)

    def do_take(self) -> None:
        """Put the chosen stock line into the quote; a purchase is noted."""
        if self.board.buying:
            self._note_purchase()
            return
        rows, scanned = self.query_one(Stock), self.board.scanned
        found = self.board.stock[rows.cursor] if rows.cursor < len(self.board.stock) else None
        if scanned:  # a number alone is that piece or none: never the nearest to it
            alike = (each for each in self.board.stock if bare_number(each.number) == scanned)
            found = next(alike, None)
            if found is None:
                self.say(f"There is no stock number {self.board.text.strip()}.", wrong=True)
                return
        if found is None:
            return
        try:
            self.board.quote_line(found.number, found.words, found.price)
        except InputError as bad:
            self.say(str(bad), wrong=True)
        else:
            if scanned:
                self.query_one("#ask", TextEntry).value = ""  # ready for the next one
        self.refresh_panes()

    def _note_purchase(self) -> None:
        desk, deal = self.board.desk, self.board.deal
        if not desk or deal is None:
            return
        if isinstance(deal, str):
            self.say(deal, wrong=True)
            return
        bought = desk.trading.buy(self.board.text)
        numbers = ", ".join(item.number for item in bought.items)
        self.query_one("#ask", TextEntry).value = ""
        self.say(" ".join((f"Noted as {numbers}.", *bought.told)))

    def type_again(self, line: str) -> bool:
        """A purchase taken back stands in the empty line again; once put back ("") it stands there no more."""
        ask, again = self.query_one("#ask", TextEntry), self._again
        self._again = line and f"bt {BOUGHT.sub('', line, count=1)}"
        if ask.value != ("" if line else again):
            return False
        ask.value = self._again
        ask.cursor_position = len(ask.value)
        return bool(line)

    def do_buy(self) -> None:
        """Begin a purchase: bt before whatever stands in the line."""
        ask = self.query_one("#ask", TextEntry)
        if not self.board.buying:
            ask.value = f"bt {ask.value}"
        ask.cursor_position = len(ask.value)

    def do_look(self) -> None:
        """Look closer at the stamp in hand; what is answered there stands in the line afterwards."""
        if self.board.desk:
            self.app.open_screen("examine", self.board, then=self._looked)

    def _looked(self, _: None) -> None:
        ask, chosen = self.query_one("#ask", TextEntry), self.board.chosen_issue
        ask.value = self.board.text
        ask.cursor_position = len(ask.value)
        self.query_one(Candidates).go(chosen)
        self.refresh_panes()

    def do_worth(self) -> None:
        """What the stamp of the line might fetch, and what may be paid for it."""
        from counter.desk.stock.item_from_text import read_piece

        if not self.board.desk:
            return
        words = self.board.text.strip().removeprefix("bt ")
        read = read_piece(words, self.board.desk.library)
        if not read.reading.observations:
            raise InputError("Type the stamp in hand first; then Ctrl+P says what it is worth.")
        self.app.open_screen("price_in_hand", self.board.desk, read)

    def do_second(self) -> None:
        """Take the nearest other reading: the line is written so that it is read in that way."""
        asked = self.board.asked
        if not asked or not asked.reading.second:
            raise InputError('The line has only one reading; where another is near, it says "or:".')
        ask = self.query_one("#ask", TextEntry)
        ask.value = asked.reading.second[0].text
        ask.cursor_position = len(ask.value)

    def do_quote(self) -> None:
        """Open the quote in full."""
        self.app.open_screen("quote", self.board, then=lambda _: self.redraw())

    def do_cover(self) -> None:
        """Check whether a stamp belongs: the cover in the line, or the one chosen in stock."""
        from counter.tui.screens.cover.opening import notes_in_hand

        if self.board.desk:
            chosen = self.query_one(Stock).cursor if self.board.side == "stock" else 0
            notes = notes_in_hand(self.board, chosen)
            self.app.open_screen("cover", notes, then=lambda _: self.refresh_panes())

    def do_treat(self) -> None:
        """May I treat it: the stamp of the line, or the chosen line of stock."""
        from counter.tui.screens.treatments.opening import cases_for

        rows = self.query_one(Stock)
        number = self.board.stock[rows.cursor].number if rows.cursor < len(self.board.stock) else ""
        cases = cases_for(self.board, number)
        if cases:
            self.app.open_screen("treatments", cases)

    def do_piece(self) -> None:
        """Open the stock number typed, or the chosen stock line, in full."""
        from counter.tui.screens.item.opening import piece_in_hand

        item = piece_in_hand(self.board, self.query_one(Stock).cursor)
        self.app.open_screen("item", self.board.desk, self.board, item, then=lambda _: self.redraw())

    def do_data(self) -> None:
        """Your data files; what came in is searched at once."""
        if self.board.desk:
            self.app.open_screen("data_files", then=lambda _: self.redraw())

    def redraw(self) -> None:
        """Work everything out again: something was noted on another screen."""
        self.board.forget()
        self.refresh_panes()

    def do_strength(self) -> None:
        """How strong a bottle is."""
        if self.board.desk:
            self.app.open_screen("peroxide", self.board.desk.library.treatments)

    def do_back(self) -> None:
        """Esc steps back: to the stock list, then to an empty line."""
        if self.board.side == "stamp":
            self.do_side()
        else:
            self.query_one("#ask", TextEntry).value = ""
