"""Tick everything, then begin: from that moment the bath is in the journal."""

from __future__ import annotations

from collections.abc import Mapping

from textual import events
from textual.app import ComposeResult

from counter.desk.treatments.case import bath_plan
from counter.judge.treat.guide import Guided
from counter.tui.screens.treatment_checks.ticks import Ticks
from counter.tui.screens.treatment_timer.telling import length_words
from counter.tui.screens.treatments.case import TreatmentCase
from counter.tui.screens.treatments.deference import Deference
from counter.tui.widgets.action import Action, Help, back, steps
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.values.errors import UserError


class TreatmentChecksScreen(BaseScreen):
    """`typed` holds strength and product as typed for the treatment."""

    NAME = "treatment_checks"
    # fmt: off
    ACTIONS = (
        Action("begin", "enter", "begin", "Begin the first stage, when every check is ticked.",
               "start go", foot=1),
        Action("tick", "space", "tick", "Tick the chosen check, or not.", "check yes", foot=2),
        *steps("check"),
        *(
            Action(f"tick_{n}", str(n % 10), f"tick {n}", f"Tick check {n}.") for n in range(1, 11)
        ),
        back("Back; nothing has begun."),
    )
    # fmt: on
    ABOUT = Help(
        "before the bath",
        (
            "Look at each check and tick it: space ticks the chosen one, a digit ticks its number "
            "(0 is the tenth). Enter begins when all are ticked, and the time runs from then on.",
            "The bath is in the journal from its first second. It cannot be forgotten: it stands at the "
            "top of every screen until it is rinsed, also after the counter was closed.",
            "Where the label, the safety data sheet or local rules differ from these words, they win.",
        ),
    )
    DEFAULT_CSS = "TreatmentChecksScreen #run { height: 3; }"

    def __init__(self, case: TreatmentCase, guided: Guided, typed: Mapping[str, str]) -> None:
        super().__init__()
        self.case = case
        self.guided = guided
        self.typed = typed

    def body(self) -> ComposeResult:
        """The checks, then what will follow."""
        strength = self.typed.get("strength", "")
        words = ", ".join(part for part in (self.guided.name, strength, self.case.heading) if part)
        yield Heading(f"Before the bath: {words}")
        yield Ticks(self.guided.checks)
        yield Heading("Then")
        yield ScrollPage(self._run_lines, id="run")
        yield Deference()

    def on_resize(self, event: events.Resize) -> None:
        """A taller screen shows how it is done, too."""
        self.query_one("#run").styles.height = 3 if event.size.height < 34 else event.size.height // 2

    def _run_lines(self, width: int) -> list[Line]:
        run = " · ".join(f"{each.words} {length_words(each.seconds)}" for each in self.guided.stages)
        lines = prose(run, width, "strong")
        if self.guided.materials:
            lines += prose(f"To hand: {'; '.join(self.guided.materials)}.", width, "dim")
        for number, step in enumerate(self.guided.steps, 1):
            lines += prose(step, width, head=(f"  {number} ", "accent"))
        for sign in self.guided.watch:
            lines += prose(f"Stop at: {sign}", width, "care", head=("  ! ", "care"))
        return lines

    # The keys

    def action_do(self, name: str) -> None:
        """Digits tick; the rest is as on every screen."""
        if name.startswith("tick_"):
            self.say("")
            self.query_one(Ticks).tick(int(name.removeprefix("tick_")) - 1)
            return
        super().action_do(name)

    def do_up(self) -> None:
        """The check before."""
        self.query_one(Ticks).move(-1)

    def do_down(self) -> None:
        """The next check."""
        self.query_one(Ticks).move(1)

    def do_tick(self) -> None:
        """Tick the chosen one."""
        ticks = self.query_one(Ticks)
        ticks.tick(ticks.cursor)

    def do_begin(self) -> None:
        """Begin, or go to the first check that is not ticked."""
        ticks = self.query_one(Ticks)
        missing = ticks.missing
        if missing:
            ticks.go(missing[0])
            count = "1 check is" if len(missing) == 1 else f"{len(missing)} checks are"
            self.say(
                f"Not begun: {count} not ticked; the first is number {missing[0] + 1}.", wrong=True
            )
            return
        plan = bath_plan(
            self.guided,
            self.case.treatable(),
            self.case.treatments,
            ticked=ticks.ticked,
            product=self.typed.get("product", ""),
            strength=self.typed.get("strength", ""),
            by=self.case.noted.get("by", ""),
            before=self.case.noted.get("before", ""),
        )
        try:
            bath = self.case.desk.baths.start(plan)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self.app.replace_screen("treatment_timer", self.case.desk, bath.id)
