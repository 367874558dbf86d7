"""The card of the chosen candidate: each line with how sure it is and the number of its source."""

from __future__ import annotations

from counter.tui.counter.board import Board
from counter.tui.kit.cited import cited
from counter.tui.kit.page import Page
from counter.tui.text import Line

#: Shown in the card's place while the line is empty: the shorthand by examples.
EXAMPLES = (
    ("1d blk imp KC sm crown", "issue and letters"),
    ("2d blu no lines", "what the frame shows"),
    ("1d red pl 148", "a plate number"),
    ("3d rose emblems", "a watermark's name"),
    ("9d green 1884", "a year"),
    ("mx red tied cover", "cancel and cover"),
    ("blk kc under 200", "stock below a price"),
    ("bt 2d blue pl 3 KC £45", "note a purchase"),
)


class CardPane(Page):
    """What the reference says of the chosen candidate; examples while nothing is typed."""

    def __init__(self, board: Board) -> None:
        super().__init__(self._made_lines, id="card")
        self.board = board
        self._kept: tuple[tuple[str, int], list[Line]] = (("", 0), [])  # most keys change no card

    def _made_lines(self, width: int) -> list[Line]:
        if not self.board.text.strip():
            return [self._example(words, meaning) for words, meaning in EXAMPLES]
        key = (self.board.issue, width)
        if key != self._kept[0]:
            self._kept = (key, self._card_lines(width))
        return self._kept[1]

    def _card_lines(self, width: int) -> list[Line]:
        return cited(self.board.card(), self.board.source_words, width)

    def _example(self, words: str, meaning: str) -> Line:
        return [(f" {words:<23} ", "accent"), (meaning, "dim")]
