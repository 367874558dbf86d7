"""One treatment for one piece: read why, answer what would change it, go on to the bath."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.containers import Container

from counter.judge.treat.guide import guide
from counter.judge.treat.plan import Plan
from counter.reference.treatment_records import Treatment
from counter.tui.screens.treatment.fields import BOTTLE, RECORD, Questions
from counter.tui.screens.treatment.page import treatment_lines
from counter.tui.screens.treatments.case import TreatmentCase
from counter.tui.screens.treatments.deference import Deference
from counter.tui.widgets.action import Action, Help, back, pages, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.form import Field, Form
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.values.errors import InputError, UserError
from counter.values.seconds import read_seconds
from counter.values.strength_words import read_label

_SIDE_BY_SIDE = 116  # columns from which reasons and questions stand beside each other


class TreatmentScreen(BaseScreen):
    """Answers go into the case, so that the next treatment knows them too."""

    NAME = "treatment"
    # fmt: off
    ACTIONS = (
        Action("answer", "enter", "answer",
               "Answer the question in hand (a number or words); - takes an answer back.",
               "question reply", foot=1),
        *steps("question", label="row"),
        *pages("Further on.", "Further up the reasons.", labels=("read on", "read back"), foot=3),
        Action("bath", "f7", "the bath", "Begin the guided run, where the verdict allows one.",
               "start timer countdown begin do it", foot=2),
        Action("strength", "f6", "strength", "How strong a bottle is, and what to add to weaken it.",
               "dilute volume percent bottle", foot=4),
        back("Back to the list; the answers are kept."),
    )
    # fmt: on
    ABOUT = Help(
        "one treatment",
        (
            "The verdict, what speaks for and against it with its source and how sure it is, and what "
            "counts against it until it is answered. Only questions that would change the verdict are "
            "asked; each answer shows the verdict it leads to.",
            "For peroxide type the strength as it stands on the bottle. Both readings of the label are "
            "judged and the stronger decides. An old or unlabelled bottle is never used.",
            "F7 begins the guided run: checks to tick, then each stage with its countdown. What was done "
            "is noted with the piece and stands in its description for the buyer.",
            "Information, not advice: the label, the safety data sheet, local rules and a paper "
            "conservator come first.",
        ),
    )
    DEFAULT_CSS = """
    TreatmentScreen #body { height: 1fr; layout: vertical; }
    TreatmentScreen #reasons { width: 1fr; }
    TreatmentScreen #asking { layout: vertical; }
    """

    def __init__(self, case: TreatmentCase, treatment: Treatment, *, product: str = "") -> None:
        super().__init__()
        self.case = case
        self.treatment = treatment
        self.typed: dict[str, str] = {"product": product} if product else {}
        self.timed = treatment.id in case.treatments.guides
        self.questions = Questions(treatment, self.timed)
        self.verdict = case.verdict(self.plan())

    def body(self) -> ComposeResult:
        """Reasons above (or left), questions below (or right), the deference always."""
        yield Heading(f"{self.treatment.name}: {self.case.heading}")
        with Container(id="body"):
            yield ScrollPage(self._lines, id="reasons")
            with Container(id="asking"):
                yield Heading(self._asking)
                yield Form(self._fields())
        yield Deference()

    def on_resize(self, event: events.Resize) -> None:
        """Side by side where there is room; else the questions take what they need."""
        wide = event.size.width >= _SIDE_BY_SIDE
        body, asking = self.query_one("#body"), self.query_one("#asking")
        body.styles.layout = "horizontal" if wide else "vertical"
        asking.styles.width = "45%" if wide else "100%"
        count = len(self.query_one(Form).fields)
        asking.display = count > 0
        need = min(count + 5, event.size.height * 5 // 11)
        asking.styles.height = count + 5 if wide else need

    def on_screen_resume(self) -> None:
        """Back from a bath: what was done counts."""
        self.verdict = self.case.verdict(self.plan())
        self.redraw()

    # The answers

    def plan(self) -> Plan:
        """The treatment as typed so far."""
        label = self.typed.get("strength")
        readings = read_label(label).readings(self.case.treatments.scale) if label else None
        seconds = read_seconds(self.typed["seconds"]) if self.typed.get("seconds") else None
        return Plan(self.treatment.id, readings, seconds, product=self.typed.get("product", ""))

    def _fields(self) -> tuple[Field, ...]:
        return self.questions.fields(self.verdict, self.case.answers, {**self.typed, **self.case.noted})

    def on_form_answered(self, event: Form.Answered) -> None:
        """Judge anew; an answer that cannot be read changes nothing."""
        event.stop()
        before = dict(self.typed), dict(self.case.answers)
        if event.key in BOTTLE:
            self.typed[event.key] = event.value
        else:
            kept = self.case.noted if event.key in RECORD else self.case.answers
            kept[event.key] = event.value
            if not event.value:
                del kept[event.key]
        try:
            self.verdict = self.case.verdict(self.plan())
        except InputError as bad:
            self.typed, self.case.answers = before
            self.say(str(bad), wrong=True)
            self.query_one(Form).ask_again(event.key, event.value)
            return
        self.redraw()

    def on_form_refused(self, event: Form.Refused) -> None:
        """The answer is none of the choices."""
        event.stop()
        self.say(event.sentence, wrong=True)

    def redraw(self) -> None:
        """The questions and the reasons as answered so far."""
        self.query_one(Form).show(self._fields())
        self.query_one("#reasons", ScrollPage).show(self._lines)
        for drawn in self.query("Heading, KeyBar"):
            drawn.refresh()

    def _lines(self, width: int) -> list[Line]:
        return treatment_lines(self.verdict, self.plan(), self.case.treatments, width)

    def _asking(self) -> str:
        count = len(self.verdict.asks)
        return f"{count} to answer" if count else "Nothing more to ask"

    def offered(self, action: str) -> bool:
        """A dry look has no bath, and nothing may be left to answer."""
        if action == "bath":
            return self.timed
        return bool(self.query_one(Form).fields) if action == "answer" else True

    # The keys

    def do_up(self) -> None:
        """The question before."""
        self.query_one(Form).move(-1)

    def do_down(self) -> None:
        """The next question."""
        self.query_one(Form).move(1)

    def do_answer(self) -> None:
        """Take the answer typed."""
        self.query_one(Form).answer()

    def do_strength(self) -> None:
        """How strong a bottle is."""
        self.app.open_screen("peroxide", self.case.treatments)

    def do_bath(self) -> None:
        """On to the checks of the guided run; refused where the verdict does not allow it."""
        try:
            guided = guide(self.verdict, self.plan().seconds, self.case.treatments)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.app.open_screen("treatment_checks", self.case, guided, self.typed)
