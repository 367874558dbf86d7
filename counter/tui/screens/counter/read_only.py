"""The line at the very top of the counter while this window may only read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.message import Message

from counter.tui.board import Board
from counter.tui.widgets.background_job import in_background
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, wrap

if TYPE_CHECKING:
    from counter.store.ledger import Ledger

_LOOK_EVERY = 3.0  # seconds between two looks at what the other window noted


class ReadOnlyBar(LineWidget):
    """Says why nothing can be noted here, and follows what the other window notes.

    Takes no room in a window that may note.
    """

    DEFAULT_CSS = "ReadOnlyBar { height: 1; display: none; background: $surface; }"

    class OthersNoted(Message):
        """The other window has noted something."""

    def __init__(self, board: Board) -> None:
        super().__init__(id="read-only")
        self.board = board

    def on_mount(self) -> None:
        """The looks go on only while this window may not note."""
        self._looks = self.set_interval(_LOOK_EVERY, self._look, pause=True)

    def redraw(self) -> None:
        """The desk may be another one."""
        desk = self.board.desk
        self.display = bool(desk and desk.ledger.read_only)
        if self.display:
            self.styles.height = len(self._lines(self.app.size.width))
            self._looks.resume()
        else:
            self._looks.pause()
        self.refresh()

    def _look(self) -> None:
        desk = self.board.desk
        if desk:
            in_background(
                self,
                "others",
                desk.ledger.refresh,
                then=self._caught_up,
                failed=lambda sentence: None,  # the folder is away for a moment; the next look tells
            )

    def _caught_up(self, anew: int) -> None:
        if anew:
            self.post_message(self.OthersNoted())

    def _lines(self, width: int) -> list[str]:
        desk = self.board.desk
        return wrap(only_reads(desk.ledger), max(width - 4, 10)) if desk else []

    def line_at(self, y: int, width: int) -> Line:
        """Who writes, and since when."""
        lines = self._lines(width)
        return [(f" {'! ' if y == 0 else '  '}{lines[y]}", "care")] if y < len(lines) else []


def only_reads(ledger: Ledger) -> str:
    """Why this window only reads, in one sentence."""
    holder = ledger.holder
    if holder is None:
        return f"Only reading, nothing can be noted here: {ledger.why_read_only}"
    since = holder.since[:16].replace("T", " ")
    who = f"{holder.who} on {holder.host} (process {holder.pid})"
    return f"Only reading, nothing can be noted here: {who} has been writing since {since}."
