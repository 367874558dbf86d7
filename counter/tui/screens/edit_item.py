"""Mend a piece by a form: each answer is noted at once, a refusal leaves everything as it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.describe.description import short_line
from counter.desk.stock.edit_item import save_field
from counter.desk.stock.item_fields import EditableField, editable_fields
from counter.tui.widgets.action import Action, Help, back, steps, take_back
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.form_screen import FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, fit
from counter.values.item import Item
from counter.values.money import marked

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class EditItemScreen(FormScreen):
    """The fields of a piece; `suggested` pence stand as a hint beside the asking price."""

    NAME = "edit_item"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "note it",
               "Note what was typed for the field in hand; - empties the field.", "save change",
               foot=1),
        *steps("field"),
        Action("fetch", "tab", "as it stands",
               "Put what stands in the field into the line, to change a word of it.", "edit present",
               foot=2),
        take_back(foot=3),
        back("Back to the piece."),
    )
    # fmt: on
    ABOUT = Help(
        "correcting a piece",
        (
            "The arrow keys choose a field; what you type and enter is noted at once, one entry a field, "
            "and Ctrl+T takes the last one back. - empties a field. Tab puts what stands there into the "
            "line, to change a word of it.",
            "Faults are terms with where they are, between semicolons: thin at top; crease lower right. "
            "+ before them adds to what is there; photographs too.",
            "Sold and on approval follow the sale, and the cost follows the purchase: a refund or the "
            "lot's split changes those.",
        ),
    )

    def __init__(self, desk: Desk, item: Item, suggested: int | None) -> None:
        super().__init__()
        self.desk = desk
        self.item = item
        self.suggested = suggested

    def body(self) -> ComposeResult:
        """The piece in one line, and the form."""
        yield Heading(f"Correct {self.item.number}")
        yield OneLine(self)
        yield Form(self.fields(), near=True)

    def fields(self) -> tuple[Field, ...]:
        """The fields as they stand."""
        sold = self.item.status == "sold"  # what it made is the dealer's own
        return tuple(
            self._field(each)
            for each in editable_fields(self.item)
            if not (sold and each.key == "asking")
        )

    def _field(self, field: EditableField) -> Field:
        hint = field.hint
        if field.key == "asking" and self.suggested is not None:
            hint += f" Suggested: {marked(self.suggested)}."
        return Field(field.key, field.label, field.show(self.item), field.choices, hint)

    def take(self, key: str, value: str) -> str:
        """Note it."""
        said = save_field(self.desk, self.item.number, key, value)
        return f"{said} Ctrl+T takes it back." if said.startswith("Noted") else said

    def redraw(self) -> None:
        """The piece as it stands now."""
        item = self.desk.item(self.item.number)
        if item is None:
            self.dismiss()
            return
        self.item = item
        self.query_one(OneLine).refresh()
        super().redraw()


class OneLine(LineWidget):
    """The piece as the stock list says it, as it stands now."""

    DEFAULT_CSS = "OneLine { height: 1; }"

    def __init__(self, sheet: EditItemScreen) -> None:
        super().__init__()
        self.sheet = sheet

    def line_at(self, y: int, width: int) -> Line:
        """The short line."""
        said = short_line(self.sheet.item, self.sheet.desk.names)
        return [("  ", "plain"), (fit(said, width - 3), "dim")]
