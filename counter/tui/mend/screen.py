"""Mend a piece by a form: each answer is noted at once, a refusal leaves everything as it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.mend_fields import Mendable, mendable
from counter.desk.mending import note_mend
from counter.ledger.describe import short_line
from counter.tui.actions import bindings_on
from counter.tui.kit.drawn import Drawn, fit
from counter.tui.kit.entry import Entry
from counter.tui.kit.foot import Foot
from counter.tui.kit.form import Field, Form, FormRows
from counter.tui.kit.rule import Rule
from counter.tui.kit.sheet import Sheet
from counter.tui.kit.told import Told
from counter.tui.text import Line
from counter.values.item import Item
from counter.values.money import marked
from counter.values.trouble import Trouble

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class MendSheet(Sheet):
    """The fields of a piece; `suggested` pence stand as a hint beside the asking price."""

    PLACE = "mend"
    BINDINGS = bindings_on("mend")

    def __init__(self, desk: Desk, item: Item, suggested: int | None) -> None:
        super().__init__()
        self.desk = desk
        self.item = item
        self.suggested = suggested

    def compose(self) -> ComposeResult:
        """The piece in one line, and the form."""
        yield Rule(f"Mend {self.item.number}")
        yield OneLine(self)
        yield Form(self._fields())
        yield Told()
        yield Foot(self.PLACE)

    def _fields(self) -> tuple[Field, ...]:
        return tuple(self._field(each) for each in mendable(self.item))

    def _field(self, field: Mendable) -> Field:
        hint = field.hint
        if field.key == "asking" and self.suggested is not None:
            hint += f" Suggested: {marked(self.suggested)}."
        return Field(field.key, field.label, field.show(self.item), field.choices, hint)

    def on_form_answered(self, event: Form.Answered) -> None:
        """Note it; refused, the words stand in the line again to be put right."""
        event.stop()
        try:
            said = note_mend(self.desk, self.item.number, event.key, event.value)
        except Trouble as trouble:
            self._put_back(event.key, event.value)
            self.say(str(trouble), wrong=True)
            return
        self._renew()
        self.say(f"{said} Ctrl+T takes it back." if said.startswith("Noted") else said)

    def on_form_refused(self, event: Form.Refused) -> None:
        """None of the choices."""
        event.stop()
        self.say(event.sentence, wrong=True)

    def _put_back(self, key: str, typed: str) -> None:
        keys = [field.key for field in self.query_one(Form).fields]
        self.query_one(FormRows).go(keys.index(key))
        self._type(typed)

    def _type(self, words: str) -> None:
        entry = self.query_one(Entry)
        entry.value = words
        entry.cursor_position = len(words)

    def _renew(self) -> None:
        item = self.desk.item(self.item.number)
        if item is None:
            self.dismiss()
            return
        self.item = item
        self.query_one(OneLine).refresh()
        self.query_one(Form).show(self._fields())

    def do_up(self) -> None:
        """The field before."""
        self.query_one(Form).move(-1)

    def do_down(self) -> None:
        """The next field."""
        self.query_one(Form).move(1)

    def do_answer(self) -> None:
        """Take what was typed."""
        self.query_one(Form).answer()

    def do_fetch(self) -> None:
        """What stands in the field, to change a word of it."""
        field = self.query_one(Form).chosen
        if field:
            self._type(field.shown())

    def do_take_back(self) -> None:
        """Reverse the last entry."""
        try:
            said = self.desk.take_back()
        except Trouble as trouble:
            self.say(str(trouble), wrong=True)
            return
        self._renew()
        self.say(said)


class OneLine(Drawn):
    """The piece as the stock list says it, as it stands now."""

    DEFAULT_CSS = "OneLine { height: 1; }"

    def __init__(self, sheet: MendSheet) -> None:
        super().__init__()
        self.sheet = sheet

    def line_at(self, y: int, width: int) -> Line:
        """The short line."""
        said = short_line(self.sheet.item, self.sheet.desk.names)
        return [("  ", "plain"), (fit(said, width - 3), "dim")]
