"""The cash box: the float, an expense, money banked; counting it closes the day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.close_day import note_box
from counter.trade.day_totals import Day, close_day, look_at_day
from counter.tui.widgets.action import Action, Help, back, steps, take_back
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import FormScreen
from counter.tui.widgets.heading import Heading
from counter.values.dates import day_words
from counter.values.money import pounds, read_pence

if TYPE_CHECKING:
    from counter.desk.desk import Desk

_COUNTED = "counted"
_LABELS = {
    "float": ("float", "What is put in to begin with."),
    "expense": ("expense paid", "Out of the box: a sum, then what for, as 12 table fee."),
    "banked": ("banked", "Taken out of the box to the bank."),
    "drawn": ("drawn", "Taken out of the box for yourself."),
    "put in": ("put in", "Further cash put in."),
}


class CashBoxScreen(FormScreen):
    """Each sum is noted as it is entered."""

    NAME = "cash_box"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "note it",
               "Note the sum typed on the line in hand; counted closes the day.", "save close", foot=1),
        *steps("line"),
        take_back(foot=3),
        back("Back to the day."),
    )
    # fmt: on
    ABOUT = Help(
        "the box",
        (
            "Note the float in the morning, and what goes out of the box beside purchases: expenses, "
            "money banked or drawn. Write what for behind the sum: 12 table fee.",
            "Counting the box closes the day: the count and what it should have held are kept side by "
            "side, and a day is closed once.",
        ),
    )

    def __init__(self, desk: Desk, day: str) -> None:
        super().__init__()
        self.desk = desk
        self.day = day
        self.box: int | None = None  # what it should hold, once that is added up

    def body(self) -> ComposeResult:
        """What the box should hold, and what is noted of it."""
        yield Heading(self._head)
        yield Form(self.fields(), near=True)

    def on_mount(self) -> None:
        """What the box should hold follows in a moment."""
        self._add_up()

    def _add_up(self) -> None:
        def show(day: Day) -> None:
            self.box = day.box
            self.query_one(Heading).refresh()

        self.in_background("box", lambda: look_at_day(self.desk.trading.book, self.day), then=show)

    def _head(self) -> str:
        holds = "" if self.box is None else f": it should hold {pounds(self.box)}"
        return f"The box on {day_words(self.day)}{holds}"

    def fields(self) -> tuple[Field, ...]:
        """A line for each kind with what was noted today, and the count."""
        noted: dict[str, int] = {}
        counted = ""
        for line in self.desk.ledger.cash.on(self.day):
            if line.kind == "day closed":
                counted = f"{pounds(line.pence)}, closed"
            else:
                noted[line.kind] = noted.get(line.kind, 0) + line.pence
        lines = [
            Field(kind, label, pounds(noted[kind]) if kind in noted else "", (), hint)
            for kind, (label, hint) in _LABELS.items()
        ]
        closing = "Count the box and enter the sum: that closes the day, once."
        return (*lines, Field(_COUNTED, "counted: close the day", counted, (), closing))

    def raw(self, field: Field) -> str:
        """A further sum is typed, not the one that stands there."""
        return ""

    def take(self, key: str, value: str) -> str:
        """Note a sum, with what for behind it."""
        book = self.desk.trading.book
        figure, _, words = value.strip().partition(" ")
        if key == _COUNTED:
            done = close_day(book, self.day, read_pence(value, "what was counted"))
            off = done.difference or 0
            same = "as it should be" if not off else f"{pounds(off)} against what it should hold"
            return f"{day_words(self.day)} is closed with {pounds(done.counted or 0)}: {same}."
        note_box(book, key, read_pence(figure, "a sum of cash"), self.day, words)
        return f"Noted: {_LABELS[key][0]} {pounds(read_pence(figure))}. Ctrl+T takes it back."

    def redraw(self) -> None:
        """The box follows."""
        super().redraw()
        self._add_up()
