"""Long work beside the screen: in a thread, with how far it is, stopped by Esc, told in a sentence."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import Any, TypeVar

from textual.message import Message

from counter.store.progress import Progress
from counter.tui.crash import write_log
from counter.tui.text import Line
from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.line_widget import LineWidget, two_ends
from counter.values.errors import UserError

_TELL_EVERY = 0.1  # seconds between two repaints of the bar
Result = TypeVar("Result")


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
    """A sheet that can do one long piece of work at a time; its compose yields a JobProgress."""

    class Went(Message):
        """The work is so far."""

        def __init__(self, share: float) -> None:
            super().__init__()
            self.share = share

    class Ended(Message):
        """The work is done (`result`), or it ended with a sentence."""

        def __init__(self, result: Any, sentence: str) -> None:
            super().__init__()
            self.result = result
            self.sentence = sentence

    _stop = False
    _then: Callable[[Any], None]

    def begin(
        self, words: str, what: Callable[[Progress], Result], then: Callable[[Result], None]
    ) -> None:
        """Do `what` in a thread, then `then` with its result on the screen's own."""
        self.busy, self._stop, self._then = words, False, then
        self.query_one(JobProgress).tell(words)
        self.run_worker(
            lambda: self._work(what), thread=True, group="data", exclusive=True, exit_on_error=False
        )

    def _work(self, what: Callable[[Progress], Any]) -> None:
        told = monotonic()

        def progress(done: int, total: int) -> bool:
            nonlocal told
            if monotonic() - told > _TELL_EVERY:
                told = monotonic()
                self.post_message(self.Went(min(done / max(total, 1), 1.0)))
            return not self._stop

        try:
            result, sentence = what(progress), ""
        except UserError as trouble:
            result, sentence = None, str(trouble)
        except Exception as fault:  # told and logged: a fault of ours must not take the stall down
            log = write_log(fault, None)
            result, sentence = None, f"It stopped on a fault of the counter's own; see {log}."
        self.post_message(self.Ended(result, sentence))

    def on_work_screen_went(self, event: Went) -> None:
        """The bar grows."""
        if self.busy:
            self.query_one(JobProgress).tell(self.busy, event.share)

    def on_work_screen_ended(self, event: Ended) -> None:
        """The bar goes; the result is shown, or what went wrong."""
        self.busy = ""
        self.query_one(JobProgress).tell("")
        if event.sentence:
            self.failed(event.sentence)
        else:
            self._then(event.result)

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
            self._wait()

    def _wait(self) -> None:
        self.say(f"{self.busy}: Esc stops it.", wrong=True)
