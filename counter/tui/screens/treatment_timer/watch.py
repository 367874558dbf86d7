"""While a bath runs: its line on every screen, its seconds in the journal, its bell."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from textual.screen import Screen

from counter.trade.treatment_clock import Countdown
from counter.trade.treatment_log import Baths
from counter.tui.screens.treatment_timer.digits import BathBar
from counter.tui.screens.treatment_timer.telling import is_resting
from counter.tui.widgets.key_bar import KeyBar
from counter.values.errors import UserError

if TYPE_CHECKING:
    from textual.app import App

#: Seconds between two looks at the clock; words that flash change at every second look.
BEAT = 0.25
_KEEP_EVERY = 12  # looks between two notes of the time: three seconds
_WARNED_FOR = 60  # looks for which a warning before closing holds: a quarter of a minute
_BELL_EVERY = 16  # looks between two bells while the liquid goes on working: four seconds


class BathWatch:
    """Made when a bath runs, gone when none does: then nothing here costs anything.

    `over` is called when no bath runs any more.
    """

    def __init__(self, app: App[Any], baths: Baths, over: Callable[[], None]) -> None:
        self.app = app
        self.baths = baths
        self.muted = False
        self.running: tuple[Countdown, ...] = baths.running()
        self.looks = 0
        self._over = over
        self._warned_until = 0
        self._up: set[tuple[str, int]] = {_stage(each) for each in self.running if each.overdue}
        self._timer = app.set_interval(BEAT, self.look)
        self.look()

    @property
    def beat(self) -> bool:
        """True and false in turn, for words that flash."""
        return self.looks // 2 % 2 == 0

    @property
    def pressing(self) -> bool:
        """Whether any bath is more than drying."""
        return any(not is_resting(each) for each in self.running)

    def may_leave(self) -> bool:
        """Whether the counter may close: with more than drying going on it warns the first time."""
        if not self.pressing or self.looks < self._warned_until:
            return True
        self._warned_until = self.looks + _WARNED_FOR
        self.say("A bath is running and goes on by the clock: F10 again closes the counter.")
        return False

    def look(self) -> None:
        """Look at the clock: tell the screen in front, keep the time, ring at zero."""
        self.looks += 1
        self.running = self.baths.running()
        if not self.running:
            self.stop()
            return
        if self.app.screen_stack:  # none any more while the counter closes
            self.show_on(self.app.screen)
        self._ring()
        if self.looks % _KEEP_EVERY == 0:
            self._keep()

    def show_on(self, screen: Screen[Any]) -> None:
        """A screen's own way of showing baths, or the bar at its top."""
        if not screen.is_mounted or not screen.query(KeyBar):
            return  # being put together (it asks again when in front), or taken apart
        own = getattr(screen, "baths_went_on", None)
        if own:
            own(self)
            return
        bar = next(iter(screen.query(BathBar)), None)
        if bar is None:
            screen.mount(BathBar(self.running), before=0)
        else:
            bar.tell(self.running, self.beat)

    def stop(self) -> None:
        """No bath runs: the bars go, the timer stops."""
        self._timer.stop()
        for screen in self.app.screen_stack:
            for bar in screen.query(BathBar):
                bar.remove()
        own = getattr(self.app.screen, "baths_went_on", None)
        if own and self.app.screen.query(KeyBar):
            own(self)
        self._over()

    def _keep(self) -> None:
        try:
            self.baths.keep_time()
        except UserError as trouble:
            self.say(str(trouble))

    def say(self, sentence: str) -> None:
        """Say what is wrong, on the screen in front where it can tell anything."""
        screens = (self.app.screen, *reversed(self.app.screen_stack))
        told = next((each for each in screens if hasattr(each, "say")), None)
        if told is not None:
            told.say(sentence, wrong=True)

    def _ring(self) -> None:
        up = {_stage(each) for each in self.running if each.state != "running"}
        danger = any(each.state == "danger" for each in self.running)
        again = danger and self.looks % _BELL_EVERY == 0
        if (up - self._up or again) and not self.muted:
            self.app.bell()
        self._up = up


def _stage(now: Countdown) -> tuple[str, int]:
    return now.bath.id, now.bath.stage
