"""While a purchase is typed: how it would be noted, line by line, or what is still missing."""

from __future__ import annotations

from counter.tui.board import Board
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, wrap
from counter.values.money import pounds


class BoughtPane(LineWidget):
    """Stands in the stock's place while the line begins with bt (bought)."""

    def __init__(self, board: Board) -> None:
        super().__init__(id="bought")
        self.board = board

    def line_at(self, y: int, width: int) -> Line:
        """The parts of the purchase as they were read."""
        lines = self._lines(width)
        return lines[y] if y < len(lines) else []

    def _lines(self, width: int) -> list[Line]:
        deal = self.board.deal
        if deal is None:
            return []
        if isinstance(deal, str):
            return [[("  " + part, "care")] for part in wrap(deal, width - 4)]
        lines: list[Line] = []
        for number, piece in enumerate(deal.pieces, 1):
            label = "bought" if len(deal.pieces) == 1 else f"bought {number}"
            lines += _labelled(label, self.board.describe(piece.item), width)
            unread = " ".join(run.text for run in piece.reading.unread)
            if unread:
                lines += _labelled("kept as words", unread, width, "dim")
        paid = deal.line.payment or "payment not said"
        lines.append(
            [
                ("  price         ", "dim"),
                (pounds(deal.deal.total_pence), "price"),
                (f", {paid}", "plain"),
            ]
        )
        lines += _labelled("from", deal.line.seller or "not said; it can follow later", width)
        lines.append([])
        lines.append([("  Enter notes it: it is on the disk before the screen says so.", "accent")])
        return lines


def _labelled(label: str, words: str, width: int, ink: str = "plain") -> list[Line]:
    parts = wrap(words, max(width - 18, 10))
    heads = [f"  {label:<14}", *([" " * 16] * (len(parts) - 1))]
    return [[(head, "dim"), (part, ink)] for head, part in zip(heads, parts, strict=True)]
