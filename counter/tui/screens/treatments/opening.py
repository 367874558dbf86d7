"""Which piece is meant when treatments are opened from the counter."""

from __future__ import annotations

from counter.tui.board import Board
from counter.tui.screens.treatments.case import TreatmentCase, case_of_line, case_of_stock


def cases_for(board: Board, number: str) -> tuple[TreatmentCase, ...]:
    """The pieces that may be meant, the one to judge first in front; none while there is no desk.

    A typed line is judged as typed (a stock number in it is that line of stock); an empty line
    means `number`, the chosen line of stock. The other of the two comes second. Raises InputError
    for a stock number that is not in the stock.
    """
    if not board.desk or not board.asked:
        return ()
    text = board.asked.text
    by_hand = board.issue if board.chosen_issue else ""
    typed = case_of_line(board.desk, text, by_hand)
    stock = case_of_stock(board.desk, number) if number else None
    if stock is None:
        return (typed,)
    if not text.strip():
        return (stock,)
    same = typed.base.item is not None and typed.base.item.number == number
    return (typed,) if same else (typed, stock)
