"""Tick everything, then begin: from that moment the bath is in the journal."""

from __future__ import annotations

from collections.abc import Mapping

from textual import events
from textual.app import ComposeResult

from counter.desk.treatments.case import bath_plan
from counter.judge.treat.guide import Guided
from counter.tui.actions import bindings_on
from counter.tui.screens.treatment_checks.ticks import Ticks
from counter.tui.screens.treatment_timer.telling import length_words
from counter.tui.screens.treatments.case import Case
from counter.tui.screens.treatments.deference import Deference
from counter.tui.text import Line
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.status_line import StatusLine
from counter.values.errors import UserError


class TreatmentChecksScreen(BaseScreen):
    """`typed` holds strength and product as typed for the treatment."""

    NAME = "bath_checks"
    BINDINGS = bindings_on("bath_checks")
    DEFAULT_CSS = "TreatmentChecksScreen #run { height: 3; }"

    def __init__(self, case: Case, guided: Guided, typed: Mapping[str, str]) -> None:
        super().__init__()
        self.case = case
        self.guided = guided
        self.typed = typed

    def compose(self) -> ComposeResult:
        """The checks, then what will follow."""
        strength = self.typed.get("strength", "")
        words = ", ".join(part for part in (self.guided.name, strength, self.case.heading) if part)
        yield Heading(f"Before the bath: {words}")
        yield Ticks(self.guided.checks)
        yield Heading("Then")
        yield ScrollPage(self._run_lines, id="run")
        yield Deference()
        yield StatusLine()
        yield KeyBar(self.NAME)

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
        from counter.tui.screens.treatment_timer.screen import TreatmentTimerScreen

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
        self.app.switch_screen(TreatmentTimerScreen(self.case.desk, bath.id))
