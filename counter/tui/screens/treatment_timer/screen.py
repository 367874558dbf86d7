"""The running baths: one in large figures, the others in a list, each until it is confirmed."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.css.query import NoMatches

from counter.trade.treatment_clock import Countdown
from counter.tui.screens.treatment_timer.panes import BathRows, Clock, StageOrder, Stages
from counter.tui.screens.treatment_timer.telling import left_words, what
from counter.tui.screens.treatments.deference import Deference
from counter.tui.widgets.action import Action, Help, back
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.key_bar import KeyBar
from counter.tui.widgets.list_view import LineList
from counter.values.errors import UserError

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.tui.screens.treatment_timer.watch import BathWatch


class TreatmentTimerScreen(BaseScreen):
    """Stays on the bath in hand whatever the others do; `bath` is the one to begin with."""

    NAME = "treatment_timer"
    # fmt: off
    ACTIONS = (
        Action("confirm", "enter", "rinsed / next",
               "Confirm that it is rinsed, or that the stage is over, and go on to the next.",
               "done finish stop out", foot=1),
        Action("down", "down tab", "next", "The next bath.", "switch"),
        Action("up", "up shift+tab", "bath before", "The bath before."),
        *(
            Action(f"pick_{n}", str(n), f"bath {n}", f"Bath {n} of the list.") for n in range(1, 10)
        ),
        Action("mute", "f5", "bell", "Mute the bell, or let it ring again; the words go on.",
               "quiet silent sound noise", foot=3),
        Action("abandon", "ctrl+x", "abandon", "End a bath early, with the reason.",
               "cancel break off stop", foot=4, takes_away=True),
        back("Back; the bath goes on and stands at the top of every screen."),
    )
    # fmt: on
    ABOUT = Help(
        "running baths",
        (
            "The large figures count down. At zero the bell rings and they count up, with a plus, until "
            "Enter confirms that it is rinsed: the liquid goes on working until then. Blotting does not "
            "stop peroxide; clean water does.",
            "Then the waters follow, each with its time, and the drying. Enter at the last stage asks "
            "how it looks now and notes the treatment with the piece.",
            "Several baths may run: 1 to 9 and the arrow keys change over. A running bath stands at the "
            "top of every screen; Ctrl+R comes back here. The time goes on when the counter is closed.",
            "In the eye: rinse at once with gently running water, lids held open, fifteen to twenty "
            "minutes. The label, the safety data sheet and local rules come first.",
        ),
    )

    def __init__(self, desk: Desk, bath: str = "") -> None:
        super().__init__()
        self.desk = desk
        self.in_hand = bath
        self.running: tuple[Countdown, ...] = ()
        self.sure = ""  # the bath and stage whose early end was asked about

    def body(self) -> ComposeResult:
        """The large figures have all the room that is left."""
        yield Heading(self._heading, id="heading")
        yield Clock()
        yield StageOrder()
        yield Heading("Stages", id="stages-head")
        yield Stages()
        yield BathRows()
        yield Deference()

    def offered(self, action: str) -> bool:
        """Without a bath there is nothing to confirm, mute or abandon."""
        return self.now is not None or action not in ("confirm", "mute", "abandon")

    def on_mount(self) -> None:
        """Show at once; the watch of the app goes on from here."""
        self._show(self.desk.baths.running(), beat=True)
        self.app.watch_baths()

    def baths_went_on(self, watch: BathWatch) -> None:
        """Called by the watch at every beat, in place of the bar on other screens."""
        with suppress(NoMatches):  # while it is taken apart some panes are gone already
            self._show(watch.running, watch.beat)

    def _show(self, running: tuple[Countdown, ...], beat: bool) -> None:
        # in the order they were begun: digits must not move while baths run out
        self.running = tuple(sorted(running, key=lambda each: each.bath.started))
        if self.in_hand not in {each.bath.id for each in self.running}:
            self.in_hand = running[0].bath.id if running else ""
        now = self.now
        for pane in (self.query_one(Clock), self.query_one(StageOrder), self.query_one(Stages)):
            if pane.now != now or (isinstance(pane, StageOrder) and pane.beat != beat and now):
                pane.now = now
                pane.refresh()
        self.query_one(StageOrder).beat = beat
        self._list()
        heading = self._heading()
        if heading != getattr(self, "_headed", None):
            self._headed = heading
            self.query_one("#heading", Heading).refresh()
            self.query_one("#stages-head", Heading).display = now is not None
            self.query_one(KeyBar).refresh()

    def _list(self) -> None:
        rows = self.query_one(BathRows)
        if rows.running != self.running:
            rows.running = self.running
            high = min(len(self.running), 5) if len(self.running) > 1 else 0
            if rows.styles.height is None or rows.styles.height.value != high:
                rows.styles.height = high
            at = [place for place, each in enumerate(self.running) if each.bath.id == self.in_hand]
            rows.cursor = at[0] if at else 0
            rows.top = max(rows.cursor - max(high, 1) + 1, 0)
            rows.refresh()

    @property
    def now(self) -> Countdown | None:
        """The bath in hand."""
        return next((each for each in self.running if each.bath.id == self.in_hand), None)

    def _heading(self) -> str:
        now = self.now
        if now is None:
            return "No bath is running"
        count = (
            f"bath {self.running.index(now) + 1} of {len(self.running)}"
            if len(self.running) > 1
            else ""
        )
        parts = (what(now), now.bath.name, now.bath.strength, count)
        return ", ".join(part for part in parts if part)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another bath in hand."""
        self._take(event.index)

    def _take(self, index: int) -> None:
        if index >= len(self.running):
            return
        self.in_hand = self.running[index].bath.id
        self.sure = ""
        self._show(self.running, beat=True)
        self.query_one(BathRows).cursor = index
        self.query_one(BathRows).refresh()

    # The keys

    def action_do(self, name: str) -> None:
        """Digits choose a bath; the rest is as on every screen."""
        if name.startswith("pick_"):
            self.say("")
            self._take(int(name.removeprefix("pick_")) - 1)
            return
        if name != "confirm":
            self.sure = ""
        super().action_do(name)

    def do_confirm(self) -> None:
        """Rinsed, or on to the next stage; asked twice while time is left."""
        now = self.now
        if now is None:
            self.dismiss()
            return
        if now.stage.last or now.bath.stage + 1 >= len(now.bath.stages):
            self._end(abandon=False)
            return
        key = f"{now.bath.id}.{now.bath.stage}"
        if now.state == "running" and self.sure != key:
            self.sure = key
            sign = "it is out and in clean water" if now.stage.works else "you will go on now"
            self.say(f"{left_words(now).capitalize()}: press Enter again if {sign}.")
            return
        self.sure = ""
        try:
            moved = self.desk.baths.next_stage(now.bath.id)
        except UserError as trouble:
            self.say(str(trouble), wrong=True)
            return
        self._show(self.desk.baths.running(), beat=True)
        rinsed = f"Rinsed, after {moved.worked} s: noted. " if now.stage.works else ""
        self.say(f"{rinsed}Now: {moved.now.words}.")

    def do_mute(self) -> None:
        """The bell off, or on again."""
        watch = self.app.baths
        if watch:
            watch.muted = not watch.muted
            self.say("The bell is muted; the words go on." if watch.muted else "The bell rings again.")

    def do_abandon(self) -> None:
        """End it early: the reason is asked."""
        if self.now:
            self._end(abandon=True)

    def _end(self, *, abandon: bool) -> None:
        now = self.now
        if now is None:
            return
        self.app.open_screen(
            "treatment_done",
            self.desk,
            now,
            abandon=abandon,
            then=lambda left: self._ended(left.outcome),
        )

    def _ended(self, told: str) -> None:
        self._show(self.desk.baths.running(), beat=True)
        if told:
            self.say(told)
