"""Which column of a stock list is what: a form of few keys."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from textual import events
from textual.app import ComposeResult

from counter.csv_files.columns import STOCK
from counter.csv_files.mapping import SKIP
from counter.tui.widgets.action import Action, Help, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.form import Field, Form, FormHint, offered
from counter.tui.widgets.heading import Heading

_CHOICES = (*((column.heading, column.heading) for column in STOCK), (SKIP, "left out"))
_SHOWN = 18  # cells of an example


class ImportColumnsScreen(BaseScreen):
    """`named` maps heading to column as it is now; `changed` hears the new one when it is left."""

    NAME = "import_columns"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "take it",
               "Take the number or the first letters typed; - leaves the column out.", "choose",
               foot=1),
        *steps("column of the file", before="column", label="one"),
        Action("back", "escape", "done", "Back; the lines are looked over again.", "ready finished",
               foot=2),
    )
    # fmt: on
    ABOUT = Help(
        "which column is what",
        (
            "Each column of the file with its first cell, and what it is taken for. Type the number of "
            "what it is, or its first letters; - leaves it out. Esc goes back, and the lines are "
            "looked over again.",
            "What you say here is remembered by the column's name, for the next list.",
        ),
    )

    def __init__(
        self,
        named: Mapping[str, str],
        examples: Mapping[str, str],
        changed: Callable[[dict[str, str]], None],
    ) -> None:
        super().__init__()
        self.named = dict(named)
        self.examples = examples
        self.changed = changed

    def body(self) -> ComposeResult:
        """The form."""
        yield Heading("Which column is what")
        yield Form(self._fields())

    def on_resize(self, event: events.Resize) -> None:
        """All choices are seen, whatever the width."""
        self.query_one(FormHint).styles.height = len(offered(_CHOICES, event.size.width - 2)) + 1

    def _fields(self) -> tuple[Field, ...]:
        return tuple(self._field(heading, name) for heading, name in self.named.items())

    def _field(self, heading: str, name: str) -> Field:
        example = self.examples.get(heading, "")
        shown = example if len(example) <= _SHOWN else f"{example[:_SHOWN]}…"
        label = f"{heading or '(no name)'}: {shown}" if shown else heading or "(no name)"
        return Field(heading, label, name, _CHOICES)

    def on_form_answered(self, event: Form.Answered) -> None:
        """Take it; another column that was taken for the same is left out."""
        event.stop()
        other = [
            heading
            for heading, name in self.named.items()
            if name == event.value != SKIP and heading != event.key
        ]
        for heading in other:
            self.named[heading] = SKIP
        self.named[event.key] = event.value or SKIP
        self.query_one(Form).show(self._fields())
        if other:
            self.say(f"{', '.join(other)} is left out now: only one column can be the {event.value}.")

    def on_form_refused(self, event: Form.Refused) -> None:
        """None of the choices."""
        event.stop()
        self.say("That is none of the numbers or names below.", wrong=True)

    def do_answer(self) -> None:
        """Take what was typed."""
        self.query_one(Form).answer()

    def do_down(self) -> None:
        """The next column."""
        self.query_one(Form).move(1)

    def do_up(self) -> None:
        """The column before."""
        self.query_one(Form).move(-1)

    def do_back(self) -> None:
        """Hand the answers over."""
        self.changed(self.named)
        self.dismiss()
