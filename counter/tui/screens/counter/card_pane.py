"""The card of the chosen candidate: each line with how sure it is and the number of its source."""

from __future__ import annotations

from counter.tui.board import Board
from counter.tui.screens.counter.examples import EXAMPLES
from counter.tui.widgets.citations import cited
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line


class CardPane(ScrollPage):
    """What the reference says of the chosen candidate; examples while nothing is typed."""

    def __init__(self, board: Board) -> None:
        super().__init__(self._made_lines, id="card")
        self.board = board
        self._kept: tuple[tuple[object, ...], list[Line]] = ((), [])  # most keys change no card

    def _made_lines(self, width: int) -> list[Line]:
        if not self.board.text.strip():
            return [[(f" {words}", "accent")] for _, words in EXAMPLES]
        asked = self.board.asked
        typed = asked.reading.first("denomination") if asked and asked.commemoratives else ""
        traps = asked.traps if asked and self.board.chosen_issue == 0 else ()
        key = (self.board.issue, asked.commemoratives if asked else (), typed, traps, width)
        if key != self._kept[0]:
            self._kept = (key, self._card_lines(width))
        return self._kept[1]

    def _card_lines(self, width: int) -> list[Line]:
        return cited(self.board.card(), self.board.source_words, width)
