"""Share the price of a lot: by expected prices or by hand to the penny, looked at, then frozen."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.describe.description import short_line
from counter.desk.trade.open_purchases import owing
from counter.desk.trade.split_lot import break_up, looked_at, read_priced_piece, split_lot
from counter.tui.widgets.action import Action, Help, back, own_eyes_key, steps
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import NOTE, FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, two_ends
from counter.values.dates import day_words
from counter.values.errors import UserError
from counter.values.money import marked, pounds, read_pence

if TYPE_CHECKING:
    from counter.desk.desk import Desk

_WAYS = (("expected", "expected prices"), ("by hand", "by hand, to the penny"))
_MORE = "another piece"


class SplitLotScreen(FormScreen):
    """A purchase of several pieces gets a price each; one of a single line gets its pieces first.

    What is typed is kept as a draft until the split is frozen; `split` hears the sentence then.
    """

    NAME = "split_lot"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer",
               "Take the price typed and go on; on the last line, freeze the split.", "next", foot=1),
        Action("note", "f9", "freeze", "Freeze the split with its basis and day.", "split save done",
               foot=2),
        *steps("piece"),
        Action("fetch", "tab", "as it stands", "Put what stands there into the line, to change it.",
               "edit", foot=3),
        own_eyes_key("what the lot cost and what each piece bears", foot=4),
        back("Back; what was typed waits."),
    )
    # fmt: on
    ABOUT = Help(
        "sharing the price of a lot",
        (
            "Give each piece what it should fetch: the price paid is shared in proportion, the pence "
            "left over go to the largest remainders, and the shares add up exactly. By hand, the shares "
            "themselves are typed and must come to the price.",
            "A lot noted as one line is broken up: type each piece with its price, as 2d blue pl 3 @45. "
            "They get stock numbers of their own, and the line is withdrawn.",
            "The split is frozen with its basis and day. A worthless piece may bear nothing.",
        ),
    )

    def __init__(self, desk: Desk, number: str, split: Callable[[str], None]) -> None:
        super().__init__()
        self.desk = desk
        self.number = number
        self.split = split
        self.lot = owing(desk.trading, number).purchase
        draft = desk.draft(self._draft) or {}
        self.way = str(draft.get("way", "expected"))
        self.prices: dict[str, int] = dict(draft.get("prices", {}))
        self.pieces: list[tuple[str, int]] = [(each[0], each[1]) for each in draft.get("pieces", ())]

    @property
    def _draft(self) -> str:
        return f"lot {self.number}"

    @property
    def single(self) -> bool:
        """Whether the lot came in as one line, to be broken into pieces."""
        return len(self.lot.items) == 1

    def body(self) -> ComposeResult:
        """The price, how far it is shared, the pieces."""
        yield Heading(f"Lot {self.number}")
        yield Shared(self)
        yield Form(self.fields(), near=True)

    def fields(self) -> tuple[Field, ...]:
        """A line for each piece with its price and its share; once frozen, the shares alone."""
        if self.lot.split:
            return tuple(
                Field(each.item, self._label(each.item), _bears(each.pence, self.costs))
                for each in self.lot.split.shares
            )
        if self.single:
            lines = self._piece_fields()
        else:
            hint = "In proportion to what each should fetch, or the shares themselves."
            way = Field("way", "share by", self.way, _WAYS, hint)
            lines = [way, *(self._field(number) for number in self.lot.items)]
        return (*lines, Field(NOTE, "freeze the split", "Enter, or F9", (), _FROZEN))

    def _field(self, number: str) -> Field:
        item = self.desk.item(number)
        price = self.prices.get(number)
        hint = "Its share of the price." if self.way == "by hand" else "What it should fetch."
        if item and item.asking and price is None:
            hint += f" Asked for it: {marked(item.asking)}."
        share = self.shares[0].get(number)
        shown = "" if price is None else pounds(price)
        if share is not None and self.way != "by hand":
            shown += f"  {_bears(share, self.costs)}".rstrip()
        return Field(number, self._label(number), shown, (), hint, needed=True)

    def _label(self, number: str) -> str:
        item = self.desk.item(number)
        return f"{number}  {short_line(item, self.desk.names)}" if item else number

    def _piece_fields(self) -> list[Field]:
        shares = self.shares[0]
        lines = [
            Field(
                str(place),
                words,
                f"{pounds(price)}  {_bears(shares.get(str(place), 0), self.costs)}".rstrip(),
            )
            for place, (words, price) in enumerate(self.pieces)
        ]
        hint = "A piece and what it should fetch: 2d blue pl 3 KC @45."
        return [*lines, Field(_MORE, _MORE, "", (), hint, needed=not lines)]

    @property
    def shares(self) -> tuple[dict[str, int], str]:
        """The shares so far, and what is still wanted."""
        total = self.lot.total_pence
        if self.single:
            prices = {str(place): price for place, (_, price) in enumerate(self.pieces)}
            return looked_at(total, prices, max(len(prices), 1), by_hand=False)
        given = {number: self.prices[number] for number in self.lot.items if number in self.prices}
        return looked_at(total, given, len(self.lot.items), by_hand=self.way == "by hand")

    def raw(self, field: Field) -> str:
        """The price alone, or the piece with its price."""
        if self.single and field.key.isdecimal():
            words, price = self.pieces[int(field.key)]
            return f"{words} @{marked(price).removeprefix('£')}"
        return field.value.partition("  ")[0] if field.key != "way" else field.shown()

    def take(self, key: str, value: str) -> str:
        """Take a price, a piece, or the way it is shared."""
        if self.lot.split:
            raise UserError(f"{self.number} is split already, and stays so.")
        if key == "way":
            self.way = value or "expected"
        elif self.single:
            self._take_piece(key, value)
        elif value:
            self.prices[key] = read_pence(value, "a price")
        else:
            self.prices.pop(key, None)
        return ""

    def _take_piece(self, key: str, value: str) -> None:
        if key == _MORE:
            if value:
                self.pieces.append(read_priced_piece(value))
                self.query_one(Form).ask_again(_MORE, "")  # the next piece, until Enter alone
        elif value:
            self.pieces[int(key)] = read_priced_piece(value)
        else:
            del self.pieces[int(key)]

    def redraw(self) -> None:
        """The sum follows."""
        super().redraw()
        self.query_one(Shared).refresh()

    def draw_covered(self) -> None:
        """What the lot cost and what each piece bears of it."""
        self.redraw()

    def do_note(self) -> None:
        """Freeze it."""
        trading = self.desk.trading
        try:
            if self.single:
                made = break_up(trading, self.number, self.pieces)
            else:
                made = split_lot(trading, self.number, self.prices, by_hand=self.way == "by hand")
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.desk.keep_draft(self._draft, None)
        how = made.purchase.split.how if made.purchase.split else ""
        self.dismiss()
        self.split(f"{self.number} is split {how} and stays so.")

    def keep_draft(self) -> None:
        """Keep what was typed, for the next time."""
        if self.lot.split is None and (self.prices or self.pieces):
            row = {"way": self.way, "prices": self.prices, "pieces": [list(p) for p in self.pieces]}
            self.desk.keep_draft(self._draft, row)

    def do_back(self) -> None:
        """Back; what was typed waits."""
        self.keep_draft()
        self.dismiss()


def _bears(share: int, costs: bool) -> str:
    """What a piece bears of the price, where that may be seen."""
    return f"bears {pounds(share)}" if costs else ""


_FROZEN = "It is frozen with its basis and day: splitting again once sales are known moves losses."


class Shared(LineWidget):
    """The lot's price and what is still to share."""

    DEFAULT_CSS = "Shared { height: 3; }"

    def __init__(self, sheet: SplitLotScreen) -> None:
        super().__init__()
        self.sheet = sheet

    def line_at(self, y: int, width: int) -> Line:
        """The price; what is still wanted."""
        lot = self.sheet.lot
        if y == 0:
            told: Line = [(f"  bought {day_words(lot.date)}", "dim")]
            paid = pounds(lot.total_pence) if self.sheet.costs else "F8 shows the price"
            price = (f"  {paid}", "price" if self.sheet.costs else "dim")
            return two_ends(
                [*told, price, (f"  {lot.words}" if self.sheet.costs else "", "plain")], [], width
            )
        if y > 1:
            return []
        if lot.split is not None:
            return [(f"  split on {day_words(lot.split.date)} {lot.split.how}; it stays so", "good")]
        wanted = self.sheet.shares[1]
        return [(f"  {wanted}", "care") if wanted else ("  ✓ shared to the penny", "good")]
