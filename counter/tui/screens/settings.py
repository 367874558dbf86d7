"""The house's settings: business, limits, VAT, currencies, the schedule; each edit dated and noted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult

from counter.desk.trade.settings import HouseLine, house_lines
from counter.reference.money import DEFER
from counter.tui.widgets.action import Action, Help, back, fetch, steps
from counter.tui.widgets.form import Field, Form, FormRows
from counter.tui.widgets.form_screen import FormScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, fit
from counter.values.date_words import day_of_words
from counter.values.errors import InputError
from counter.values.money import plain, read_pence

if TYPE_CHECKING:
    from counter.desk.desk import Desk

_FROM = "from"


class SettingsScreen(FormScreen):
    """One list of everything that can be set, by groups; the first line says from which day."""

    NAME = "settings"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "note it",
               "Note what was typed for the line in hand; - empties it or takes your edit off.",
               "save change set", foot=1),
        *steps("setting"),
        fetch(foot=2),
        Action("next_group", "pagedown", "group", "The next group of settings.",
               "business limits vat exchange schedule factors", foot=3),
        Action("group_before", "pageup", "group before", "The group before."),
        back(),
    )
    # fmt: on
    ABOUT = Help(
        "the house",
        (
            "Your business as it stands on papers, VAT registration, the profit you want, the limits of "
            "the law, rates of exchange and the factors of the house schedule. PgDn goes to the next "
            "group. Each change is noted with its day.",
            "Limits and rates are dated: a new figure holds from the day in the first line, and what "
            "was sold before keeps the old one. A rate of exchange is how many units one pound buys.",
            "The figures given are reference only: check with HMRC or an accountant before relying on one.",
        ),
    )

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.day = desk.trading.today
        self.lines = self._read()

    def _read(self) -> dict[str, HouseLine]:
        return {
            f"{each.group}/{each.key}": each
            for each in house_lines(self.desk.trading.settings, self.day)
        }

    def body(self) -> ComposeResult:
        """The group in hand, the settings, whom to ask."""
        yield Heading(self._head)
        yield Form(self.fields(), near=True)
        yield MoneyDeference()

    def _head(self) -> str:
        return f"The house: {self._group()}"

    def _group(self) -> str:
        form = next(iter(self.query(Form)), None)
        key = form.chosen.key if form and form.chosen else _FROM
        return self.lines[key].group if key in self.lines else "from which day"

    def fields(self) -> tuple[Field, ...]:
        """A line for each setting."""
        hint = "Limits, rates and currencies you change hold from this day on."
        return (
            Field(_FROM, "changes hold from", self.day, (), hint),
            *(self._field(key, line) for key, line in self.lines.items()),
        )

    def _field(self, key: str, line: HouseLine) -> Field:
        source = f" Now from: {line.source}." if line.source else ""
        choices = tuple((each, each) for each in line.choices)
        label = (
            line.label
            if line.group in ("Business", "House schedule")
            else f"{line.group}: {line.label}"
        )
        return Field(key, label, line.value, choices, line.hint + source)

    def take(self, key: str, value: str) -> str:
        """Note a setting, from the day in the first line on."""
        if key == _FROM:
            self.day = day_of_words(value)
        else:
            line = self.lines[key]
            line.note(value, self.day)
        self.lines = self._read()
        return f"Noted: {self.lines[key].label}." if key in self.lines else ""

    def raw(self, field: Field) -> str:
        """A sum without its sign and commas."""
        if field.value.startswith("£"):
            try:
                return plain(read_pence(field.value))
            except InputError:
                return field.value
        return field.value

    def on_form_chose(self, event: Form.Chose) -> None:
        """The heading names the group in hand."""
        event.stop()
        self.query_one(Heading).refresh()

    def do_next_group(self) -> None:
        """The first line of the next group."""
        self._jump(1)

    def do_group_before(self) -> None:
        """The first line of the group before."""
        self._jump(-1)

    def _jump(self, by: int) -> None:
        groups = list(dict.fromkeys(line.group for line in self.lines.values()))
        now = self._group()
        at = groups.index(now) + by if now in groups else (0 if by > 0 else len(groups) - 1)
        wanted = groups[at % len(groups)]
        keys = [field.key for field in self.query_one(Form).fields]
        first = next(key for key, line in self.lines.items() if line.group == wanted)
        self.query_one(FormRows).go(keys.index(first))


class MoneyDeference(LineWidget):
    """Whom to ask."""

    DEFAULT_CSS = "MoneyDeference { height: 1; }"

    def line_at(self, y: int, width: int) -> Line:
        """One sentence."""
        return [(fit("  " + DEFER, width), "dim")]
