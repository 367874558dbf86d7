"""The card of the chosen candidate: each line with its source and how sure it is."""

from __future__ import annotations

from counter.tui.counter.board import Board
from counter.tui.kit.drawn import wrap
from counter.tui.kit.page import Page
from counter.tui.text import Line

#: Shown in the card's place while the line is empty: the shorthand by examples.
EXAMPLES = (
    ("1d blk imp KC sm crown", "a stamp: issue, letters, watermark"),
    ("2d blu no lines", "colour and what the frame shows"),
    ("1d red pl 148", "a plate number"),
    ("3d rose emblems", "a watermark by name"),
    ("9d green 1884", "a year"),
    ("mx red tied cover 12 may 1840", "cancel, cover and date"),
    ("blk kc under 200", "stock by letters and price"),
)


class CardPane(Page):
    """What the reference says of the chosen candidate."""

    def __init__(self, board: Board) -> None:
        super().__init__(self._made_lines, id="card")
        self.board = board

    def _made_lines(self, width: int) -> list[Line]:
        if not self.board.text.strip():
            return [self._example(words, meaning) for words, meaning in EXAMPLES]
        lines: list[Line] = []
        for entry in self.board.card():
            lines += self._entry(entry.label, entry.text, f"{entry.source}, {entry.confidence}", width)
        return lines

    def _example(self, words: str, meaning: str) -> Line:
        return [(f" {words:<30} ", "accent"), (meaning, "dim")]

    def _entry(self, label: str, text: str, source: str, width: int) -> list[Line]:
        room = width - 13
        wrapped = wrap(text, room)
        lines: list[Line] = [[(f" {label:<12}", "dim"), (wrapped[0], "plain")]]
        lines += [[(" " * 13, "plain"), (line, "plain")] for line in wrapped[1:]]
        last = sum(len(part) for part, _ in lines[-1])
        if last + len(source) + 3 <= width:
            lines[-1].append((f"  {source}", "dim"))
        else:
            lines.append([(" " * 13, "plain"), (source, "dim")])
        return lines
