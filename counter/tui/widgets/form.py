"""A form of few keys: questions in a list, one line to answer them in.

The arrow keys choose a question; Enter takes what stands in the answer line and goes on to the next
question. A question with choices shows them numbered: the number, or the first letters, answers it.
"""

from __future__ import annotations

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.message import Message
from textual.widget import Widget

from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.text import Line, fit, two_ends, wrap
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry
from counter.values.errors import InputError

#: What a long question leaves for its answer: "£1,250.00  bears £1,000.00".
_ANSWER = 28


@dataclass(frozen=True, slots=True)
class Field:
    """One question: its key, words, what is answered so far, the choices (value, words), a hint.

    `needed` questions are marked while they are empty. Without choices any text answers.
    """

    key: str
    label: str
    value: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    hint: str = ""
    needed: bool = False

    def shown(self) -> str:
        """The answer in words."""
        return dict(self.choices).get(self.value, self.value)

    def read(self, typed: str) -> str:
        """The value that an answer stands for. Raises InputError when it is none of the choices."""
        words = typed.strip()
        if not self.choices or not words:
            return words
        if words.isdecimal() and 1 <= int(words) <= len(self.choices):
            return self.choices[int(words) - 1][0]
        begun = [value for value, said in self.choices if said.lower().startswith(words.lower())]
        exact = [
            value for value, said in self.choices if words.lower() in (said.lower(), value.lower())
        ]
        found = exact or begun
        if len(found) != 1:
            offered = ", ".join(f"{number} {said}" for number, (_, said) in enumerate(self.choices, 1))
            raise InputError(f"{words} is not an answer to {self.label}: choose {offered}.")
        return found[0]


class Form(Widget):
    """The questions, the choices of the one in hand, and the answer line.

    The screen calls `show(fields)`, `move(by)`, `answer()`, and hears `Answered`.
    """

    DEFAULT_CSS = """
    Form { height: 1fr; layout: vertical; }
    Form > FormHint { height: 3; }
    """

    class Answered(Message):
        """A question was answered; "" takes the answer back."""

        def __init__(self, key: str, value: str) -> None:
            super().__init__()
            self.key = key
            self.value = value

    class Chose(Message):
        """Another question is in hand."""

    class Refused(Message):
        """What was typed is no answer; `sentence` says why."""

        def __init__(self, sentence: str) -> None:
            super().__init__()
            self.sentence = sentence

    def __init__(
        self, fields: tuple[Field, ...] = (), *, near: bool = False, id: str | None = None
    ) -> None:
        super().__init__(id=id)
        self.fields = fields
        self.near = near

    def compose(self) -> ComposeResult:
        """List, hint, answer line."""
        yield FormRows(self)
        yield FormHint(self)
        yield PromptedEntry("answer", "then Enter", entry="form-answer")

    def on_mount(self) -> None:
        """Ready to type."""
        self._near()
        self.query_one(TextEntry).focus()

    def _near(self) -> None:
        """`near`: the answer line stands right below the questions, however tall the screen is."""
        if self.near:
            self.query_one(FormRows).styles.max_height = len(self.fields) + 1

    @property
    def chosen(self) -> Field | None:
        """The question in hand."""
        rows = self.query_one(FormRows)
        return self.fields[rows.cursor] if rows.cursor < len(self.fields) else None

    def show(self, fields: tuple[Field, ...]) -> None:
        """New answers or questions; the one in hand stays in hand, or what now stands in its place."""
        rows = self.query_one(FormRows)
        key = self.chosen.key if self.chosen else ""
        self.fields = fields
        self._near()
        here = min(rows.cursor, max(len(fields) - 1, 0))
        rows.go(next((place for place, each in enumerate(fields) if each.key == key), here))
        rows.refresh()
        self.query_one(FormHint).refresh()

    def move(self, by: int) -> None:
        """Another question; what was typed and not entered is left behind."""
        self.query_one(FormRows).move(by)
        self.query_one(TextEntry).value = ""

    def answer(self) -> None:
        """Take what was typed as the answer and go on to the next question."""
        field, entry = self.chosen, self.query_one(TextEntry)
        if field is None:
            return
        if not entry.value.strip():
            self.move(1)
            return
        try:
            value = field.read("" if entry.value.strip() == "-" else entry.value)
        except InputError as bad:
            self.post_message(self.Refused(str(bad)))
            return
        self.post_message(self.Answered(field.key, value))
        self.move(1)

    def ask_again(self, key: str, typed: str) -> None:
        """Back to a question whose answer the screen could not take; what was typed stands there."""
        at = next((place for place, each in enumerate(self.fields) if each.key == key), 0)
        self.query_one(FormRows).go(at)
        entry = self.query_one(TextEntry)
        entry.value = typed
        entry.cursor_position = len(typed)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """The hint follows the question in hand."""
        event.stop()
        self.query_one(FormHint).refresh()
        self.post_message(self.Chose())


class FormRows(LineList):
    """The questions with their answers."""

    def __init__(self, form: Form) -> None:
        super().__init__()
        self.form = form

    def count(self) -> int:
        """How many questions."""
        return len(self.form.fields)

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """The question on the left, its answer beside it, whole where the question leaves it room."""
        field = self.form.fields[index]
        longest = max(len(each.label) for each in self.form.fields) + 2
        half = max(min(width - 2 - _ANSWER, longest), min(width // 2 - 2, longest), 20)
        answer = field.shown() or ("needed" if field.needed else "–")
        ink = "strong" if field.value else ("care" if field.needed else "dim")
        label = (fit(field.label, half), "strong" if chosen else "plain")
        return two_ends([mark(chosen), label, (" ", "plain"), (answer, ink)], [], width)


class FormHint(LineWidget):
    """The choices of the question in hand, numbered; or its hint."""

    def __init__(self, form: Form) -> None:
        super().__init__()
        self.form = form

    def lines(self, width: int) -> list[Line]:
        """The hint, then the choices."""
        field = self.form.chosen
        if field is None:
            return []
        hint = wrap(field.hint, width - 2) if field.hint else []
        told = [(line, "dim") for line in hint]
        told += [(line, "accent") for line in offered(field.choices, width - 2)]
        return [[("  " + line, ink)] for line, ink in told]

    def line_at(self, y: int, width: int) -> Line:
        """The line of the hint or of the choices."""
        lines = self.lines(width)
        return lines[y] if y < len(lines) else []


def offered(choices: tuple[tuple[str, str], ...], width: int) -> list[str]:
    """The choices with their numbers, as many to a line as fit whole."""
    lines: list[str] = []
    for number, (_, words) in enumerate(choices, 1):
        told = f"{number} {words}"
        if lines and len(lines[-1]) + 3 + len(told) <= width:
            lines[-1] += f"   {told}"
        else:
            lines += wrap(told, width)
    return lines
