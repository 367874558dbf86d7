"""Does it belong? The finding stays on top while questions are answered at the foot."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from textual import events
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from counter.describe.description import short_line
from counter.desk.covers.questions import CoverQuestion
from counter.desk.covers.session import CoverNotes
from counter.tui.screens.cover.dates import dates
from counter.tui.screens.cover.head import Head
from counter.tui.screens.cover.rate import rate_page
from counter.tui.screens.cover.reasons import reasons
from counter.tui.widgets.action import Action, Help, back, pages, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.form import Field, Form, FormHint, FormRows
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, fit
from counter.values.errors import InputError, UserError

#: From this width everything stands side by side.
WIDE = 120
VIEWS = ("dates", "reasons", "questions", "rate")


@dataclass(frozen=True, slots=True)
class CoverField(Field):
    """A question whose answer is tried before it is taken, so that a wrong one stays typed."""

    tried: Callable[[str, str], None] = lambda key, typed: None

    def read(self, typed: str) -> str:
        """The answer; raises InputError."""
        value = Field.read(self, typed)
        if value:
            self.tried(self.key, value)
        return value


class Views(Heading):
    """The views there are, the one in front marked."""

    def __init__(self, front: Callable[[], str]) -> None:
        super().__init__(front, id="views")
        self.front = front

    def line_at(self, y: int, width: int) -> Line:
        """Names of the views between rules."""
        line: Line = [("── ", "dim")]
        for view in VIEWS:
            chosen = view == self.front()
            line.append((f"▸{view}" if chosen else f" {view}", "accent" if chosen else "dim"))
            line.append((" ", "plain"))
        return [*line, ("─" * width, "dim")]


class CoverScreen(BaseScreen):
    """Works on the notes of one cover; the counter keeps them when the sheet is left."""

    NAME = "cover"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer",
               "Take the answer typed (a number for a choice, - takes it back) and go on.", "reply",
               foot=1),
        Action("turn", "tab", "turn", "The dates, the reasons, the questions, the rate.",
               "view page next", foot=2),
        Action("turn_back", "shift+tab", "turn back", "The view before."),
        *steps("question"),
        *pages("Further down the page.", "Further up the page.", labels=("read on", "read back")),
        Action("rate", "f6", "rate",
               "What it cost to send, and which weights explain the franking; again for the rest.",
               "postage pence weight miles sheets registered unpaid", foot=3),
        Action("afresh", "ctrl+x", "afresh",
               "Forget the answers given: back to what the line or the stock says.", "clear reset",
               foot=5, takes_away=True),
        Action("keep", "f9", "keep",
               "Keep the finding with the item of stock; no paper shows it.",
               "save note description", foot=4),
        back("Back to the counter; the answers wait while the line is unchanged."),
    )
    # fmt: on
    ABOUT = Help(
        "the cover check",
        (
            "It begins with what the ask line says. Type a stock number, or choose a cover among the "
            "stock with the arrow keys, and it begins with that item.",
            "On top stands the finding with what speaks for and against. Tab turns between the dates, "
            "the reasons, the questions and the rate; a wide screen shows them side by side.",
            "The question in hand stands at the foot, the most telling first. Answer with its number, "
            "or in your own shorthand: 12 mar 1842, numeral 46, half ounce, 2 x 1d. Every answer judges "
            "the cover anew; - takes an answer back.",
            "One strong point against outweighs any number of weak ones for. Not tied, or no backstamp, "
            "is weak at most. A date that is only remembered may caution and never condemns.",
            "A finding is not a certificate: for certainty ask an expert committee.",
        ),
    )
    CSS_PATH = "cover.tcss"

    def __init__(self, notes: CoverNotes) -> None:
        super().__init__()
        self.notes = notes
        self.view = "dates"

    def body(self) -> ComposeResult:
        """The finding, then the pages and the form: in turn, or side by side."""
        yield Heading(self._title)
        yield Head(lambda: self.notes)
        yield Views(lambda: self.view)
        with Horizontal(id="body"):
            with Vertical(id="left"):
                yield Heading("Dates", id="dates-head")
                yield ScrollPage(
                    lambda width: dates(self.notes, width, alone=not self.wide), id="dates"
                )
                yield Heading("For and against", id="reasons-head")
                yield ScrollPage(lambda width: reasons(self.notes, width), id="reasons")
            with Vertical(id="right"):
                yield Heading("Rate", id="rate-head")
                yield ScrollPage(lambda width: rate_page(self.notes, width), id="rate")
                yield Heading(self._question_head)
                yield Form()

    def on_mount(self) -> None:
        """Everything judged once."""
        self._judge()

    def on_resize(self, event: events.Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width >= WIDE, "wide")
        self._arrange()

    @property
    def wide(self) -> bool:
        """Whether everything stands side by side."""
        return self.has_class("wide")

    def _title(self) -> str:
        item = self.notes.item
        if item:
            words = f"Cover {item.number}: {short_line(item, self.notes.desk.names)}"
        else:
            words = f"Cover: {self.notes.text.strip() or 'nothing typed; answer what you see'}"
        return fit(words, self.size.width - 5).rstrip()

    def _question_head(self) -> str:
        """The question in hand, by its label and its place among those that are open."""
        form = self.query_one(Form)
        field = form.chosen
        if field is None:
            return "Questions"
        asked = self._asked()
        still = sum(each.open for each in asked)
        told = "" if self.view == "rate" else f" ({still} open)"
        known = field.shown()
        return f"{field.label}{f': {known}' if known else ''}{told}"

    def _asked(self) -> tuple[CoverQuestion, ...]:
        return self.notes.rate_questions() if self.view == "rate" else self.notes.questions()

    def _judge(self) -> None:
        """Show the case as it stands now."""
        self.query_one(Form).show(tuple(map(self._field, self._asked())))
        for page in self.query(ScrollPage):
            page.redraw()
        for drawn in (*self.query(Heading), self.query_one(Head)):
            drawn.refresh()
        self._arrange()

    def _field(self, asked: CoverQuestion) -> CoverField:
        hint = f"{asked.question} {asked.how and f'({asked.how})'}".strip()
        return CoverField(
            asked.key, asked.label, asked.known, asked.choices, hint, tried=self.notes.check
        )

    def _fit_hint(self) -> None:
        """The question in hand takes the lines it needs, where lines are dear."""
        hint = self.query_one(FormHint)
        width = hint.size.width or self.size.width
        hint.styles.height = max(len(hint.lines(width)), 2)

    def _arrange(self) -> None:
        """Which parts stand in view, and how high."""
        self._fit_hint()
        wide, view = self.wide, self.view
        for page in self.query(ScrollPage):
            page.display = wide or page.id == view
        self.query_one("#left").display = wide or view in ("dates", "reasons")
        self.query_one(FormRows).display = wide or view == "questions"
        self.set_class(not wide and view in ("questions", "rate"), "right")
        self.set_class(not wide and view == "questions", "questions")
        if wide:
            width, height = self.size.width // 2, self.size.height
            for name in ("dates", "rate"):
                page = self.query_one(f"#{name}", ScrollPage)
                page.styles.height = min(len(page.lines(width)) + 1, height * 2 // 5)
        else:
            for page in self.query(ScrollPage):
                page.styles.height = "1fr"

    # The keys

    def _turn(self, view: str) -> None:
        other_questions = "rate" in (self.view, view)
        self.view = view
        rows = self.query_one(FormRows)
        rows.top = 0
        self._judge()
        at = 0 if other_questions else rows.cursor
        self.call_after_refresh(lambda: rows.go(at))  # its height is known by then

    def do_turn(self) -> None:
        """The next view; where all are in view, all questions or those of the rate."""
        if self.wide:
            self.do_rate()
        else:
            self._turn(VIEWS[(VIEWS.index(self.view) + 1) % len(VIEWS)])

    def do_turn_back(self) -> None:
        """The view before."""
        if self.wide:
            self.do_rate()
        else:
            self._turn(VIEWS[VIEWS.index(self.view) - 1])

    def do_rate(self) -> None:
        """The rate and its questions; again for the dates."""
        self._turn("dates" if self.view == "rate" else "rate")

    def do_down(self) -> None:
        """The next question."""
        self.query_one(Form).move(1)

    def do_up(self) -> None:
        """The question before."""
        self.query_one(Form).move(-1)

    def page_in_hand(self) -> ScrollPage:
        """The view turned to; beside the questions the reasons."""
        name = "rate" if self.view == "rate" else "reasons" if self.wide else self.view
        return self.query_one(f"#{name}" if name != "questions" else "#reasons", ScrollPage)

    def do_answer(self) -> None:
        """Take the answer typed."""
        self.query_one(Form).answer()

    def on_form_answered(self, event: Form.Answered) -> None:
        """The cover is judged anew."""
        event.stop()
        try:
            self.notes.answer(event.key, event.value)
        except InputError as bad:
            self.say(str(bad), wrong=True)
        self._judge()

    def on_form_refused(self, event: Form.Refused) -> None:
        """No answer to the question; what was typed stays."""
        event.stop()
        self.say(event.sentence, wrong=True)

    def on_form_chose(self, event: Form.Chose) -> None:
        """Another question is in hand: its heading, its choices."""
        event.stop()
        self._fit_hint()
        for rule in self.query(Heading):
            rule.refresh()

    def do_afresh(self) -> None:
        """Forget the answers given."""
        self.notes.start_over()
        self._judge()
        self.say("The answers are forgotten; this is what was typed or noted at first.")

    def do_keep(self) -> None:
        """Keep the finding with the item of stock."""
        try:
            self.say(self.notes.keep())
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
        self._judge()
