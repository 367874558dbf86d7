"""What a screen may ask of the app: the desk, the counter's state, another screen."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Protocol

from textual.app import App
from textual.screen import Screen

if TYPE_CHECKING:
    from counter.desk.desk import Desk
    from counter.trade.treatment_clock import Countdown
    from counter.tui.board import Board


class RunningBaths(Protocol):
    """The watch over the running baths: shown on every screen, with a bell."""

    muted: bool
    running: tuple[Countdown, ...]

    @property
    def beat(self) -> bool:
        """True and false in turn, for words that flash."""

    @property
    def pressing(self) -> bool:
        """Whether any bath is more than drying."""

    def may_leave(self) -> bool:
        """Whether the counter may close: the first time it warns."""

    def say(self, sentence: str) -> None:
        """Say what is wrong on the screen in front."""

    def show_on(self, screen: Screen[Any]) -> None:
        """Show the baths on a screen."""


class AppServices(App[None]):
    """The app as its screens and widgets know it; `navigation.py` and `app.py` do what it says."""

    desk: Desk | None = None
    baths: RunningBaths | None = None  # only while a bath runs

    @property
    def board(self) -> Board:
        """The counter's state, where the quote in hand is."""
        raise NotImplementedError

    def open_screen(
        self, name: str, *given: object, then: Callable[[Any], None] | None = None, **named: object
    ) -> None:
        """Open the screen of a name over this one; `then` hears of it once it is left."""
        raise NotImplementedError

    def replace_screen(self, name: str, *given: object, **named: object) -> None:
        """Open the screen of a name in the place of this one."""
        raise NotImplementedError

    def open_desk(self) -> None:
        """Open the desk (again)."""
        raise NotImplementedError

    def shut_desk(self) -> bool:
        """Keep drafts and let the desk go; False when they could not be kept, which is told."""
        raise NotImplementedError

    def watch_baths(self) -> None:
        """While a bath runs: keep it in sight on every screen."""
        raise NotImplementedError

    def bring_back(self) -> bool:
        """The quote as it was before lines were thrown out of it, if that was done last."""
        raise NotImplementedError

    def type_again(self, line: str) -> bool:
        """A purchase taken back stands in the counter's line again, if that is empty ("": no longer)."""
        raise NotImplementedError

    def action_do(self, name: str) -> None:
        """Carry out an action on the screen in front: its own way first, the app's else."""
        raise NotImplementedError
