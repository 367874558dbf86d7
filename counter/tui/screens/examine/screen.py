"""Looking closer: one screen turned like pages, or all side by side where there is room."""

from __future__ import annotations

from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.widgets import Input

from counter.desk.identify.gauge_input import Counted, read_count
from counter.desk.identify.related_stock import FoundLine, found_in_stock
from counter.judge.identify import NextLook
from counter.judge.observation import Observation
from counter.tui.board import Board
from counter.tui.screens.counter.panes import Candidates, ReadBack
from counter.tui.screens.examine.finds_pane import Finds, FindWhy
from counter.tui.screens.examine.gauge_pane import Gauge, GaugePage
from counter.tui.screens.examine.head import LineNow, Pages
from counter.tui.screens.examine.letters_pane import Letters
from counter.tui.screens.examine.looks_pane import Looks
from counter.tui.screens.examine.reasons_pane import Reasons
from counter.tui.screens.examine.state import PAGES, SHOWN, Looking
from counter.tui.widgets.action import Action, Help, back, pages, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import LineList
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text_entry import TextEntry
from counter.values.errors import InputError
from counter.values.item import Item

_WIDE, _TALL = 128, 38
_MOST_FINDS = 12  # rows before the list scrolls


class ExamineScreen(BaseScreen):
    """Works on the board's line; what is answered here stands in the line afterwards."""

    NAME = "examine"
    # fmt: off
    ACTIONS = (
        Action("take", "enter", "take",
               "Begin the first look; put the measured gauge into the line, or a find into the quote.",
               "choose answer quote", foot=2),
        Action("page", "tab", "turn", "Turn on: look, letters, gauge, finds.",
               "next page letters gauge finds map", foot=1),
        Action("page_back", "shift+tab", "turn back", "Turn back."),
        *steps("candidate, or the next find", before="one", label="row"),
        *pages("Further down the page.", "Back up the page.", labels=("further", "back up")),
        Action("both_sides", "f5", "both sides",
               "The plate number was read on both sides of the stamp, or on one only.",
               "plate number caution", foot=5),
        Action("wet", "f6", "wet/dry",
               "Propose looks that wet the stamp too: at home, with the tray to hand; or dry ones only.",
               "wet fluid benzine home dry", foot=4),
        Action("beside", "f7", "two",
               "The chosen candidate and the first, or the first and the next, side by side: what parts them.",
               "compare side by side two difference tell apart versus proof", foot=12),
        Action("take_back", "ctrl+t", "take back", "Take the last thing put into the line out again.",
               "undo answer remove wrong", foot=11),
        back("Out of a look without answering; else back to the counter."),
    )
    # fmt: on
    ABOUT = Help(
        "looking closer",
        (
            "At most three looks are proposed, the most telling for its seconds first. A bit is one "
            "halving of what it could be. The digit before a look chooses it; the digit before an answer "
            "gives it, and its words go into the line, where they can be changed like any others.",
            "The arrow keys choose what it could be; beside it stands what speaks for it, what against, "
            "what nobody has looked at yet, how the trade explains a contradiction and the test that "
            "settles it. Each says how sure it is and where it is from.",
            "F7 puts two candidates side by side: the look that parts them first and what proves each stand "
            "on top; ≠ marks what the one shows and the other never does.",
            "Looks that wet the stamp are proposed only when you ask with F6. Watermark fluid burns: no "
            "flame, fresh air, the label and the safety data sheet first, and never on an ink that the "
            "card does not clear.",
            "Letters: ■ is the stamp in hand, ○ its neighbours, ▪ or a figure what your stock holds of the "
            "plate; the lower left letter is the row, the "
            "lower right the column. Letters alone prove no plate and no join.",
            "Gauge: count the holes of a side over any length: 20 over 25 mm; of two sides, top first: "
            "20/25mm x 18/22mm. Enter puts the measured gauge into the line.",
            "Finds are stamps of your stock from the same plate that could adjoin the one in hand or "
            "pair with it. Enter puts the chosen one into the quote.",
        ),
    )
    CSS_PATH = "examine.tcss"
    AUTO_FOCUS = ""
    # a digit answers, unless it is typed into the count: so these give way to the field
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(str(digit), f"digit({digit})", show=False) for digit in range(10)),
    ]

    def __init__(self, board: Board) -> None:
        super().__init__()
        self.board = board
        self.looking = Looking(board)

    def body(self) -> ComposeResult:
        """Head, then the pages; which of them show is the stylesheet's business."""
        looking, finds = self.looking, Finds(self.looking)
        yield Pages(looking)
        yield LineNow(looking)
        yield ReadBack(self.board)
        with Horizontal(id="pages"):
            with Vertical(id="near"):
                yield Heading(self._looks_head)
                yield Looks(looking)
                yield Heading(self._why_head)
                with Horizontal(id="why"):
                    yield Candidates(self.board)
                    yield Reasons(looking)
            with Vertical(id="far"):
                yield Heading(lambda: self._part("letters", "Letters")).add_class("part")
                yield Letters(looking)
                yield Heading(lambda: self._part("gauge", "Gauge")).add_class("part")
                yield Gauge(looking)
                yield Heading(lambda: self._part("finds", "Finds in stock")).add_class("part")
                with Vertical(id="finds-part"):
                    yield finds
                    yield FindWhy(looking, finds)

    def on_mount(self) -> None:
        """Show the first page and set the workers to it."""
        self.query_one(Candidates).cursor = self.board.chosen_issue
        self.board.next_look = ""  # here they all stand
        self._show_page()
        self._work()

    def on_resize(self, event: events.Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width >= _WIDE and event.size.height >= _TALL, "wide")

    # Looks, answers

    def _looks_head(self) -> str:
        if self.looking.taken:
            return "Which do you see?"
        return "What to look at next" + (", wet looks too" if self.looking.wet else "")

    def _part(self, page: str, words: str) -> str:
        return f"▸ {words}" if page == self.looking.page else words

    def _why_head(self) -> str:
        if self.looking.beside:
            return "Two side by side"
        name = self.board.short_name(self.board.issue) if self.board.issue else ""
        return f"What it could be, and why: {name}" if name else "What it could be, and why"

    def action_digit(self, digit: int) -> None:
        """A look, or the answer to the one taken; 0 shows further answers."""
        self.say("")
        looking = self.looking
        if looking.taken is None:
            if looking.looks and 1 <= digit <= len(looking.looks):
                looking.taken, looking.first = looking.looks[digit - 1], 0
        elif digit == 0:
            further = looking.first + SHOWN
            looking.first = further if further < len(looking.taken.answers) else 0
        else:
            self._answer(looking.first + digit - 1)
        self.refresh_panes()

    def _answer(self, index: int) -> None:
        taken = self.looking.taken
        if taken and index < len(taken.answers) and index < self.looking.first + SHOWN:
            answer = taken.answers[index]
            self._put_in(answer.observation, f"{answer.words}: it stands in the line now.")

    def _put_in(self, seen: Observation, told: str) -> None:
        if self.looking.put_in(seen):
            self.say(told)
            self._line_changed()
        else:
            self.say(f"No words for {seen.words} fit this line: type it at the counter.", wrong=True)

    def _line_changed(self) -> None:
        rows = self.query_one(Candidates)
        rows.top = rows.cursor = 0
        self.query_one(Reasons).top = 0
        self.refresh_panes()
        self._work()

    def on_looks_pressed(self, event: Looks.Pressed) -> None:
        """Clicked."""
        self.action_digit(event.digit)

    def do_take_back(self) -> None:
        """The line as it was before."""
        if self.looking.unsay():
            self._line_changed()
        else:
            self.say("Nothing was put into the line here.", wrong=True)

    def do_wet(self) -> None:
        """Looks that wet too, or dry ones only."""
        self.looking.wet = not self.looking.wet
        self.looking.looks = self.looking.taken = None
        self._work()
        self.refresh_panes()

    def do_beside(self) -> None:
        """Two candidates in columns, or the reasons of one."""
        self.looking.beside = not self.looking.beside
        self.looking.page = "look"
        self.query_one(Reasons).top = 0
        self.set_class(self.looking.beside, "beside")
        self._show_page()

    def do_both_sides(self) -> None:
        """The plate number was read on both sides, or on one."""
        item = self.looking.in_hand()
        if item is None or not item.plate:
            self.say("No plate number is read yet: add it to the line, as pl 6.", wrong=True)
            return
        self.looking.both_sides = not self.looking.both_sides
        words = "both sides" if self.looking.both_sides else "one side only"
        self.say(f"The plate number is taken as read on {words}.")
        self.refresh_panes()

    # Work beside the keys

    def _work(self) -> None:
        """Looks and finds are worked out in threads; the keys never wait for them."""
        asked, item, wet = self.board.asked, self.looking.in_hand(), self.looking.wet
        if asked is None or item is None:
            return

        def show(looks: tuple[NextLook, ...]) -> None:
            self.looking.looks = looks
            self.query_one(Looks).show()

        self.in_background(
            "looks",
            lambda: asked.next_looks(wet=wet),
            then=show,
            still=lambda: asked is self.board.asked and wet == self.looking.wet,
        )
        self._find(item)

    def _find(self, item: Item) -> None:
        desk = self.board.desk
        if desk is None:
            return

        def show(found: tuple[FoundLine, ...]) -> None:
            self.looking.found = found
            self.query_one(Finds).start_again()
            self.query_one(Finds).styles.height = min(max(len(found), 2), _MOST_FINDS)
            self.query_one(FindWhy).refresh()
            self.query_one(Pages).refresh()

        self.in_background(
            "finds",
            lambda: found_in_stock(desk, item),
            then=show,
            still=lambda: item == self.looking.in_hand(),
        )

    @on(Input.Changed, "#count")
    def _counted(self, event: Input.Changed) -> None:
        desk, text = self.board.desk, event.value
        if desk is None:
            return
        stamps = desk.library.stamps

        def show(counted: Counted | None, told: str) -> None:
            self.looking.counted, self.looking.count_told = counted, told
            self.query_one(GaugePage).redraw()
            self.query_one(Pages).refresh()

        self.in_background(
            "count",
            lambda: read_count(text, stamps),
            then=lambda counted: show(counted, ""),
            failed=lambda sentence: show(None, sentence if text.strip() else ""),
            still=lambda: text == self.query_one("#count", TextEntry).value,
        )

    # Pages and lists

    def _show_page(self) -> None:
        for page in PAGES:
            self.set_class(page == self.looking.page, f"on-{page}")
        count = self.query_one("#count", TextEntry)
        self.set_focus(count if self.looking.page == "gauge" else None)
        self.refresh_panes()

    def refresh_panes(self) -> None:
        """Draw everything again."""
        for drawn in self.query("Pages, LineNow, ReadBack, Heading, Candidates, Finds, FindWhy"):
            drawn.refresh()
        self.query_one(Looks).show()
        for page in self.query(ScrollPage):
            page.redraw()

    def do_page(self) -> None:
        """The next page."""
        self.looking.turn(1)
        self._show_page()

    def do_page_back(self) -> None:
        """The page before."""
        self.looking.turn(-1)
        self._show_page()

    def on_pages_turned(self, event: Pages.Turned) -> None:
        """A page's name was clicked."""
        self.looking.page = event.page
        self._show_page()

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another candidate, or another find."""
        if isinstance(event.rows, Candidates) and self.board.chosen_issue != event.index:
            self.board.chosen_issue = event.index
            self.looking.found = None
            self.query_one(Reasons).top = 0
            if item := self.looking.in_hand():
                self._find(item)
        self.refresh_panes()

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """A row was clicked twice."""
        if isinstance(event.rows, Finds):
            self._quote_find()

    def list_in_hand(self) -> LineList:
        """The finds on their page, else what it could be."""
        return self.query_one(Finds if self.looking.page == "finds" else Candidates)

    def page_in_hand(self) -> ScrollPage:
        """The page turned to."""
        kinds: dict[str, type[ScrollPage]] = {"letters": Letters, "gauge": GaugePage}
        return self.query_one(kinds.get(self.looking.page, Reasons))

    def do_take(self) -> None:
        """What Enter does depends on the page in hand."""
        page = self.looking.page
        if page == "gauge":
            self._put_gauge()
        elif page == "finds":
            self._quote_find()
        elif self.looking.taken:
            self.say("Press the digit of what you see; Esc when it cannot be seen.")
        else:
            self.action_digit(1)

    def _put_gauge(self) -> None:
        counted = self.looking.counted
        if counted is None:
            told = self.looking.count_told or "Type a count first: 20 over 25 mm."
            self.say(told, wrong=True)
            return
        seen = Observation("gauge", counted.gauge, counted.words)
        self._put_in(seen, f"{counted.words} stands in the line.")

    def _quote_find(self) -> None:
        rows, found = self.query_one(Finds), self.looking.found or ()
        if rows.cursor >= len(found):
            return
        chosen = found[rows.cursor]
        try:
            self.board.quote_line(chosen.number, chosen.words, chosen.price)
        except InputError as bad:
            self.say(str(bad), wrong=True)
        else:
            self.say(f"{chosen.number} is in the quote.")
        self.refresh_panes()

    def do_back(self) -> None:
        """Out of a look; else back to the counter."""
        if self.looking.taken:
            self.looking.taken = None
            self.refresh_panes()
        else:
            self.dismiss()
