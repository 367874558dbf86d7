"""The base of screens with long work: how far it is, stopped by Esc, its end told in a sentence."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import TypeVar

from counter.store.progress import Progress
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, two_ends

_TELL_EVERY = 0.1  # seconds between two repaints of the bar
Made = TypeVar("Made")


class JobProgress(LineWidget):
    """What is being done and how much of it is; takes no room while nothing is."""

    DEFAULT_CSS = "JobProgress { height: 2; display: none; }"

    def __init__(self) -> None:
        super().__init__()
        self.words = ""
        self.share = 0.0

    def tell(self, words: str, share: float = 0.0) -> None:
        """Show it; no words take the bar away."""
        self.words, self.share = words, share
        self.display = bool(words)
        self.refresh()

    def line_at(self, y: int, width: int) -> Line:
        """The words, the bar, the share in per cent."""
        if y == 0:
            return two_ends([(f"  {self.words} …", "strong")], [("Esc stops it ", "dim")], width)
        room = max(width - 12, 10)
        full = round(room * self.share)
        bar: Line = [("  ", "plain"), ("█" * full, "accent"), ("░" * (room - full), "dim")]
        return two_ends(bar, [(f" {self.share * 100:3.0f} % ", "plain")], width)


class WorkScreen(BaseScreen):
    """A screen that can do one long piece of work at a time; its body yields a JobProgress."""

    _stop = False

    def begin(self, words: str, what: Callable[[Progress], Made], then: Callable[[Made], None]) -> None:
        """Do `what` in a thread, then `then` with its result on the screen's own."""
        self.busy, self._stop = words, False
        self.query_one(JobProgress).tell(words)
        told = monotonic()

        def progress(done: int, total: int) -> bool:
            nonlocal told
            if monotonic() - told > _TELL_EVERY:
                told = monotonic()
                self.call_later(self._went, min(done / max(total, 1), 1.0))
            return not self._stop

        def ended(result: Made) -> None:
            self._no_bar()
            then(result)

        self.in_background("data", lambda: what(progress), then=ended, failed=self._failed)

    def _went(self, share: float) -> None:
        if self.busy:
            self.query_one(JobProgress).tell(self.busy, share)

    def _no_bar(self) -> None:
        self.busy = ""
        self.query_one(JobProgress).tell("")

    def _failed(self, sentence: str) -> None:
        self._no_bar()
        self.failed(sentence)

    def failed(self, sentence: str) -> None:
        """The work ended with a sentence."""
        self.say(sentence, wrong=True)

    def on_unmount(self) -> None:
        """Nobody waits for it any more."""
        self._stop = True

    def action_do(self, name: str) -> None:
        """While it works, Esc stops it and everything else waits."""
        if not self.busy:
            super().action_do(name)
        elif name == "back":
            self._stop = True
            self.say("Stopping …")
        else:
            self.say(f"{self.busy}: Esc stops it.", wrong=True)
