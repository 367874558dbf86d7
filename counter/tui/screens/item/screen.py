"""One piece of stock in full; what a customer may not see is shown only when asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.containers import Horizontal

from counter.describe.description import long_form, short_line
from counter.tui.board import Board
from counter.tui.screens.item.facts import head, heading, listing, own_eyes, shop
from counter.tui.screens.item.past import Past
from counter.tui.screens.item.photograph import Photograph
from counter.tui.screens.item.price import price_lines
from counter.tui.screens.item.priced import PricedItem
from counter.tui.widgets.action import Action, Help, back, own_eyes_key, pages, take_back
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, visible
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.money import pounds

if TYPE_CHECKING:
    from counter.desk.desk import Desk

#: From so many columns on the price stands beside the piece, not below it.
SIDE_BY_SIDE = 116


class ItemScreen(BaseScreen):
    """Shows the piece of a stock number; `board` gives the stamp chosen at the counter."""

    NAME = "item"
    # fmt: off
    ACTIONS = (
        Action("mend", "enter", "correct",
               "Correct the price, faults, letters, where it is kept and the rest.",
               "edit change mend asking price status photographs certificate", foot=1),
        Action("history", "f4", "history", "What was noted of it and when.", "journal entries past",
               foot=4),
        Action("copy", "f5", "copy", "Copy the listing as plain text.", "clipboard description long",
               foot=2),
        Action("copy_line", "f6", "copy line", "Copy the short line with its number and price.",
               "clipboard description short"),
        Action("identify", "f7", "identify",
               "Take the stamp chosen at the counter as what this piece is.", "issue name what is it"),
        own_eyes_key("what it might fetch, cost and leaves, and what to offer",
                     words="offer buy remarks worth value", foot=3),
        Action("photograph", "f9", "photo", "Show its photographs; the arrow keys turn to the next.",
               "picture image scan", foot=5),
        Action("next_photograph", "right", "next photo", "The next photograph."),
        Action("last_photograph", "left", "photo before", "The photograph before."),
        Action("down", "down", "down", "A line further down."),
        Action("up", "up", "up", "A line further up."),
        *pages("A page further down.", "A page further up.", down="pagedown space"),
        take_back(),
        back("Back to the piece, then to the counter."),
    )
    # fmt: on
    ABOUT = Help(
        "the piece",
        (
            "Everything noted of one piece, as a listing may say it: nothing is praised, and nothing is "
            "said that nobody looked at. No price suggested, own sale, cost, margin or offer stands here "
            "until you ask with F8; they are hidden again when you leave, because a customer may be looking.",
            "The price comes from your own sales of the same thing, carried over to this piece's "
            "condition by the house schedule, four times at most. With fewer than three alike nothing is "
            "suggested, and what is another thing (another plate that stands apart, a rare cancel) is "
            "listed below and does not count. What no sum takes is said: not priced. "
            "The picture puts each along a price axis, with the suggestion and what you ask.",
            "Enter corrects what is noted. F7 takes the stamp chosen at the counter as what it is: for "
            "that type its "
            "number and what you see, such as WK-12 1d blk kc, choose the stamp, and come back.",
            "Photographs are shown in colour where the terminal has colours; otherwise their path stands "
            "there.",
        ),
    )
    CSS_PATH = "item.tcss"

    def __init__(self, desk: Desk, board: Board, item: Item) -> None:
        super().__init__()
        self.desk = desk
        self.board = board
        self.item = item
        self.priced: PricedItem | None = None
        self.why_unpriced = ""
        self.view = "piece"
        self.sides = (
            ScrollPage(self._left, id="piece-left"),
            ScrollPage(self._right, id="piece-right"),
        )

    def body(self) -> ComposeResult:
        """The piece, its price beside it where there is room; or one of its other views."""
        yield Heading(self._head)
        with Horizontal(id="piece-sides"):
            yield from self.sides
        yield Past(self.desk.ledger)
        yield Photograph(self.desk.ledger.folder)

    def on_mount(self) -> None:
        """The price follows in a moment."""
        self._price()

    def on_resize(self, event: events.Resize) -> None:
        """The price goes beside the piece, or below it."""
        self.sides[1].display = event.size.width >= SIDE_BY_SIDE
        self.refresh_panes()

    # What stands in the panes

    def _head(self) -> str:
        views = {"past": ": what was noted of it", "photograph": ": photographs"}
        return f"{self.item.number}{views.get(self.view, '')}"

    def _left(self, width: int) -> list[Line]:
        lines = [*heading(self.item, self.desk.names, width, costs=self.costs), []]
        if self.costs:
            lines += [head("For your eyes", width), *self._own(width), []]
        lines += [head("Listing", width), *listing(self.item, self.desk.names, width), []]
        lines += shop(self.item, width)
        if self.app.size.width < SIDE_BY_SIDE:
            lines += [[], head("Price", width), *self._price_lines(width)]
        return lines

    def _right(self, width: int) -> list[Line]:
        return self._price_lines(width)

    def _own(self, width: int) -> list[Line]:
        return own_eyes(self.priced.own, width) if self.priced else [[(_WORKING, "dim")]]

    def _price_lines(self, width: int) -> list[Line]:
        if not self.costs:
            return [[(_OWN_EYES, "dim")]]
        if self.priced:
            cited = Cited(self.desk.library.money.sources)
            ways = prose(self.priced.ways.words, width) if self.priced.ways else []
            return [*ways, *price_lines(self.priced.made, self.priced.drawn, cited, width)]
        return [[(f"  {self.why_unpriced}", "care") if self.why_unpriced else (_WORKING, "dim")]]

    def refresh_panes(self) -> None:
        """Draw the panes again."""
        for side in self.sides:
            side.redraw()
        self.query_one(Heading).refresh()

    # Work in threads

    def _price(self) -> None:
        item = self.item

        def show(priced: PricedItem | None, why: str = "") -> None:
            self.priced, self.why_unpriced = priced, why
            self.refresh_panes()

        self.in_background(
            "price",
            lambda: PricedItem(self.desk, item),
            then=show,
            failed=lambda sentence: show(None, sentence),
            still=lambda: item == self.item,
        )

    # The keys

    def _show(self, view: str) -> None:
        self.view = view
        self.query_one("#piece-sides").display = view == "piece"
        self.query_one(Past).display = view == "past"
        self.query_one(Photograph).display = view == "photograph"
        self.query_one(Heading).refresh()

    def _turn(self, pages: int, lines: int = 0) -> None:
        for page in self.query(ScrollPage):
            if page.size.height:
                page.turn(lines or pages * max(page.size.height - 2, 1))

    def do_down(self) -> None:
        """A line down."""
        self._turn(0, 1)

    def do_up(self) -> None:
        """A line up."""
        self._turn(0, -1)

    def do_page_down(self) -> None:
        """A page down."""
        self._turn(1)

    def do_page_up(self) -> None:
        """A page up."""
        self._turn(-1)

    def do_costs(self) -> None:
        """Cost, margin and offer: shown, or hidden again."""
        super().do_costs()
        self._show("piece")
        self.sides[0].top = 0
        self.refresh_panes()

    def do_history(self) -> None:
        """What touched the piece; again, the piece."""
        self._show("piece" if self.view == "past" else "past")
        if self.view == "past":
            self.query_one(Past).look_back(self.item)

    def do_photograph(self) -> None:
        """The photographs; again, the piece."""
        self._show("piece" if self.view == "photograph" else "photograph")
        if self.view == "photograph":
            self.query_one(Photograph).show(self.item.photographs)

    def do_next_photograph(self) -> None:
        """The next photograph."""
        if self.view == "photograph":
            self.query_one(Photograph).turn(1)

    def do_last_photograph(self) -> None:
        """The photograph before."""
        if self.view == "photograph":
            self.query_one(Photograph).turn(-1)

    def do_copy(self) -> None:
        """Copy the listing."""
        said = long_form(self.item, self.desk.names)
        self.app.copy_to_clipboard("\n".join(visible(line) for line in said.split("\n")))
        self.say("The listing is copied, if this terminal allows copying.")

    def do_copy_line(self) -> None:
        """Copy the short line with number and price."""
        price = self.item.open_price
        asked = "" if price is None else f"  {pounds(price)}"
        said = f"{self.item.number}  {short_line(self.item, self.desk.names)}{asked}"
        self.app.copy_to_clipboard(visible(said))
        self.say("The short line is copied, if this terminal allows copying.")

    def do_mend(self) -> None:
        """Open the form; what was noted there stands here afterwards."""
        suggested = self.priced.made.marked if self.priced and self.costs else None
        self.app.open_screen("edit_item", self.desk, self.item, suggested, then=lambda _: self.redraw())

    def do_identify(self) -> None:
        """Take the stamp chosen at the counter as the issue."""
        from counter.desk.stock.edit_item import note_issue

        found = self.board.candidates
        if self.board.chosen_issue >= len(found):
            self.say(_NO_CANDIDATE.format(self.item.number), wrong=True)
            return
        try:
            said = note_issue(self.desk, self.item.number, found[self.board.chosen_issue])
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.redraw()
        self.say(f"{said} Ctrl+T takes it back.")

    def redraw(self) -> None:
        """The piece as it is noted now; gone, when its purchase was taken back."""
        item = self.desk.item(self.item.number)
        if item is None:
            self.dismiss()
        elif item != self.item:
            self.item, self.priced = item, None
            self._show("piece")
            self.refresh_panes()
            self._price()

    def do_back(self) -> None:
        """To the piece, then to the counter."""
        if self.view != "piece":
            self._show("piece")
        else:
            self.dismiss()


_OWN_EYES = "  What it might fetch is for your own eyes: F8 shows it."
_WORKING = "  Being worked out …"
_NO_CANDIDATE = (
    "No stamp is chosen at the counter: type {} and what you see there, choose the stamp, "
    "and come back."
)
