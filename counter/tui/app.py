"""The app: opens the desk beside the first frame, keeps drafts, and crashes politely."""

from __future__ import annotations

import asyncio
import gc
import signal
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from textual.app import App
from textual.message import Message

from counter.tui.crash import write_log
from counter.tui.navigation import Navigation, read_in
from counter.tui.screens.counter.screen import CounterScreen
from counter.tui.textual_private import PoliteApp
from counter.tui.theme import NIGHT, THEMES, theme_for
from counter.tui.widgets.action import EVERYWHERE
from counter.tui.widgets.base_screen import BaseScreen, bindings
from counter.values.errors import UserError
from counter.values.visible import how_many

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.tui.action_search import FoundAction
    from counter.tui.board import Board
    from counter.tui.screens.command_palette import CommandPalette

#: Seconds between two looks at a stock that is still being read.
_GROWS = 0.25
#: Screens that are read in once the stock can be searched, so that their first key is quick too.
_OPENED_LATER = ("quote", "examine", "cover", "treatments", "item", "sell", "day")
#: The draft under which day or night colours are remembered.
_LIGHT = "light"


class CounterApp(PoliteApp, Navigation):
    """`opener` opens the desk; it runs in a thread once the first frame stands."""

    TITLE = "counter"
    ENABLE_COMMAND_PALETTE = False
    CSS_PATH = "app.tcss"
    BINDINGS = bindings(EVERYWHERE)

    class DeskOpen(Message):
        """The desk is open and the stock can be asked."""

        def __init__(self, desk: Desk) -> None:
            super().__init__()
            self.desk = desk

    class DeskShut(Message):
        """The desk could not be opened, or not all of it; `sentence` says why."""

        def __init__(self, sentence: str) -> None:
            super().__init__()
            self.sentence = sentence

    def __init__(
        self, opener: Callable[[], Desk], *, theme: str = "", log_folder: Path | None = None
    ) -> None:
        super().__init__()
        self.opener = opener
        self._log_folder = log_folder
        self._counter = CounterScreen()
        self._theme_given = bool(theme)  # asked for by name: what was chosen last gives way to it
        self._warned = False  # that drafts cannot be kept
        for each in THEMES:
            self.register_theme(each)
        # set before the stylesheet is first read: changing it later would read it twice
        self.set_reactive(App.theme, theme_for(self.console.color_system, theme))
        self.stylesheet.set_variables(self.get_css_variables())

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Our own ink names, known before a theme is chosen."""
        return dict(NIGHT.variables)

    def get_default_screen(self) -> CounterScreen:
        """The counter is the screen at the bottom of the stack: no blank one is made first."""
        return self._counter

    def on_mount(self) -> None:
        """Open the desk when the first frame stands."""
        if not self.is_headless:
            self._mind_signals()
        self.call_after_refresh(self._begin_opening)

    def _mind_signals(self) -> None:
        """The terminal was closed or the counter told to end: what is unfinished is kept first."""
        loop = asyncio.get_running_loop()
        for name in ("SIGHUP", "SIGTERM", "SIGINT"):
            with suppress(AttributeError, NotImplementedError):  # Windows knows fewer
                loop.add_signal_handler(getattr(signal, name), self._ended_from_outside)

    def _ended_from_outside(self) -> None:
        with suppress(UserError):
            self._keep_drafts()
        self.exit(return_code=1, message="The counter was ended from outside; what was noted is kept.")

    def action_help_quit(self) -> None:
        """Ctrl+C copies what is marked; it never closes the counter."""
        self._tell("Ctrl+C only copies. F10 closes the counter; unfinished notes are kept.")

    def _begin_opening(self) -> None:
        self.run_worker(self._open, thread=True, group="opening", exit_on_error=False)

    def _open(self) -> None:
        desk, handed = None, False
        try:
            desk = self.opener()
            desk.read_first()
            if not self.post_message(self.DeskOpen(desk)):  # left before it was open
                desk.close()
                return
            handed = True
            shown = monotonic()
            while desk.index_more():
                if monotonic() - shown > _GROWS:  # a repaint takes time from the reading
                    self._counter.post_message(CounterScreen.StockGrew())
                    shown = monotonic()
            self._counter.post_message(CounterScreen.StockGrew())
            desk.warm()
            read_in(_OPENED_LATER)
            return
        except UserError as trouble:
            sentence = str(trouble)
        except Exception as fault:  # told, not swallowed: the app goes on without a desk
            where = write_log(fault, self._log_folder)
            sentence = f"The data could not be opened for a fault of the counter's own; see {where}."
        finally:
            gc.enable()  # off since the start (start.py): a stock being read makes little garbage
        if desk is not None and not handed:
            desk.close()
        self.post_message(self.DeskShut(sentence))

    def on_counter_app_desk_open(self, event: DeskOpen) -> None:
        """Hand the desk to the counter."""
        self.desk = event.desk
        if not self.screen_stack:
            return  # the counter is closing already
        self._counter.desk_open(event.desk)
        light = event.desk.draft(_LIGHT)
        if light and not self._theme_given and self.theme != "sixteen":
            self.theme = theme_for(self.console.color_system, str(light.get("name", "")))
        if isinstance(self.screen, BaseScreen):
            self.screen.redraw()
        self.watch_baths()
        if self.baths and self.baths.pressing:
            self.do_baths()

    def on_counter_screen_stock_grew(self) -> None:
        """More of the stock can be searched: the counter shows it."""
        if self.screen_stack:
            self._counter.on_counter_screen_stock_grew()

    def on_counter_app_desk_shut(self, event: DeskShut) -> None:
        """Say in one sentence why there is no desk."""
        if self.screen_stack:
            self._counter.desk_shut(event.sentence)

    @property
    def board(self) -> Board:
        """The counter's state."""
        return self._counter.board

    def bring_back(self) -> bool:
        """The quote as it was before lines were thrown out of it, if that was done last."""
        front = self.screen
        if not self.board.bring_back() or not isinstance(front, BaseScreen):
            return False
        front.taken_back(f"The quote of {how_many(len(self.board.quote.lines), 'line')} is back.")
        return True

    def type_again(self, line: str) -> bool:
        """A purchase taken back stands in the counter's line again, if that is empty."""
        return self._counter.type_again(line)

    def look_again(self) -> None:
        """A room was left: what it changed is looked up anew."""
        self._counter.redraw()

    def action_do(self, name: str) -> None:
        """Carry out an action: the screen's own way first, the app's else."""
        if isinstance(self.screen, BaseScreen) and self.screen.busy:
            self.screen.action_do(name)  # it works, and says how it is stopped
            return
        method = getattr(self.screen, f"do_{name}", None) or getattr(self, f"do_{name}")
        try:
            method()
        except UserError as trouble:
            self._tell(str(trouble))

    def do_help(self) -> None:
        """Open help for the screen in front."""
        self.open_once("help", type(self.screen))

    def do_find(self) -> None:
        """Open the finder of actions for the screen in front."""
        self.open_once("command_palette", type(self.screen), then=self._found)

    def _found(self, palette: CommandPalette) -> None:
        found = palette.taken
        if found is None:
            return
        if found.screen:
            self._go_to(found)
        else:
            self.action_do(found.action.id)

    def _go_to(self, found: FoundAction) -> None:
        """To the screen an action stands on, as far as a way leads there from here; else say where."""
        from counter.tui.action_search import opens_a_screen, way_to

        front = self.screen
        here = front.NAME if isinstance(front, BaseScreen) else ""
        if here == found.screen:
            if opens_a_screen(here, found.action.id):
                self.action_do(found.action.id)
            elif isinstance(front, BaseScreen):
                front.say(f"{found.action.shown}: {found.action.help}")
            return
        way = way_to(here, found.screen)
        if way and way[0][0] == here:
            self.action_do(way[0][1].id)
            if self.screen is not front:  # a piece or a line may be wanted first, which is told
                self.screen.call_after_refresh(self._go_to, found)
            return
        keys = ", then ".join(each.shown for _, each in way)
        self._tell(
            f"{found.action.label}: {found.place}" + (f"; from the counter {keys}." if keys else ".")
        )

    def watch_baths(self) -> None:
        """While a bath runs: keep it in sight on every screen."""
        if self.desk and not self.baths and self.desk.bath_running:
            from counter.tui.screens.treatment_timer.watch import BathWatch

            self.baths = BathWatch(self, self.desk.baths, self._no_bath)

    def _no_bath(self) -> None:
        self.baths = None

    def do_baths(self) -> None:
        """The running baths, unless they are in front."""
        if self.desk:
            self.open_once("treatment_timer", self.desk)

    def do_open_demo(self) -> None:
        """Put your own stock aside and open the invented dealer's instead."""
        from counter.desk.opening import open_desk
        from counter.reference.library import Library

        if self.baths:
            self.baths.say("A bath is running: see it through before the demo is opened.")
            return
        library = self.desk.library if self.desk else Library()
        if self.shut_desk():
            self.opener = lambda: open_desk(None, demo=True, library=library)
            self.open_desk()

    def shut_desk(self) -> bool:
        """Keep drafts and let the desk go; False when they could not be kept, which is told first."""
        if not self._drafts_kept():
            return False
        own, self.desk = self.desk, None
        self._counter.desk_away()
        if own:
            own.close()
        return True

    def open_desk(self) -> None:
        """Open the desk (again); it comes as DeskOpen or DeskShut."""
        self._begin_opening()

    def do_light(self) -> None:
        """Day colours, night colours, and back; sixteen colours stay what they are."""
        if self.theme != "sixteen":
            self.theme = "day" if self.theme == "night" else "night"
            if self.desk:  # remembered for the next time
                self.desk.keep_draft(_LIGHT, {"name": self.theme})

    def do_leave(self) -> None:
        """Keep unfinished notes and close; while a bath works, only when asked twice."""
        if self.baths and not self.baths.may_leave():
            return
        if self._drafts_kept():
            self.exit()

    def _drafts_kept(self) -> bool:
        """Keep what is unfinished; when that fails say so, and be content the second time."""
        try:
            self._keep_drafts()
        except UserError as trouble:
            if not self._warned:
                self._warned = True
                self._tell(f"{trouble} What is unfinished would be lost; again leaves it.")
                return False
        self._warned = False
        return True

    def _tell(self, sentence: str) -> None:
        """Say what is wrong on the screen in front."""
        front = self.screen if isinstance(self.screen, BaseScreen) else self._counter
        front.say(sentence, wrong=True)

    def _keep_drafts(self) -> None:
        """Every screen keeps what it can. Raises the first UserError when all have tried."""
        troubles: list[UserError] = []
        for screen in self.screen_stack:
            try:
                if isinstance(screen, BaseScreen):
                    screen.keep_draft()
            except UserError as trouble:
                troubles.append(trouble)
        if troubles:
            raise troubles[0]

    def on_fault(self, error: Exception) -> str:
        """A crash: keep drafts, write a log without anyone's data, say where in one line."""
        try:
            with suppress(UserError):
                self._keep_drafts()
        finally:
            where = write_log(error, self._log_folder)
        return f"The counter stopped on a fault of its own; see {where}."
