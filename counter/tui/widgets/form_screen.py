"""The base of screens that are a form: answers taken one by one, a last line that notes them."""

from __future__ import annotations

from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.text_entry import TextEntry
from counter.values.errors import UserError

#: The key of the last line of a form whose answers are noted together.
NOTE = "note"


class FormScreen(BaseScreen):
    """Compose yields a `Form(self.fields())`; subclasses give `fields`, `take`, and may `do_note`.

    An answer that `take` refuses (UserError) stands in the line again, to be put right.
    """

    def fields(self) -> tuple[Field, ...]:
        """The questions with what is answered so far."""
        raise NotImplementedError

    def take(self, key: str, value: str) -> str:
        """Take an answer; a sentence to tell, or "". Raises UserError when it will not do."""
        raise NotImplementedError

    def redraw(self) -> None:
        """Show what holds now."""
        self.query_one(Form).show(self.fields())

    def action_do(self, name: str) -> None:
        """As on every screen; but nothing is noted over words typed and not entered, which are lost."""
        form = next(iter(self.query(Form)), None)
        typed = form.query_one(TextEntry).value.strip() if form else ""
        last = bool(form and form.chosen and form.chosen.key == NOTE)
        if typed and (name == "note" or (name == "answer" and last)):
            do = "clear it (Ctrl+U), or go up and type it there" if last else "Enter takes it"
            self.say(f"Nothing is noted: {typed} is typed and not entered; {do}.", wrong=True)
            return
        super().action_do(name)

    def raw(self, field: Field) -> str:
        """What stands in a field, as it would be typed."""
        return field.shown()

    def do_note(self) -> None:
        """Enter on the last line; a form without one notes each answer as it comes."""

    def on_form_answered(self, event: Form.Answered) -> None:
        """Take it; refused, the words stand in the line again."""
        event.stop()
        form = self.query_one(Form)
        try:
            said = "" if event.key == NOTE else self.take(event.key, event.value)
        except UserError as trouble:
            form.ask_again(event.key, event.value or "-")
            self.say(str(trouble), wrong=True)
            return
        form.query_one(TextEntry).value = ""
        self.redraw()
        self.say(said)

    def on_form_refused(self, event: Form.Refused) -> None:
        """None of the choices."""
        event.stop()
        self.say(event.sentence, wrong=True)

    def do_up(self) -> None:
        """The question before."""
        self.query_one(Form).move(-1)

    def do_down(self) -> None:
        """The next question."""
        self.query_one(Form).move(1)

    def do_answer(self) -> None:
        """Take what was typed; on the last line, note it all."""
        form = self.query_one(Form)
        if form.chosen and form.chosen.key == NOTE:
            self.do_note()
        else:
            form.answer()

    def do_fetch(self) -> None:
        """What stands in the field, to change a word of it."""
        form = self.query_one(Form)
        if form.chosen and form.chosen.key != NOTE:
            form.ask_again(form.chosen.key, self.raw(form.chosen))
