"""Which piece is meant at the counter: the number typed, else the chosen stock line."""

from __future__ import annotations

from counter.tui.board import Board
from counter.values.errors import InputError
from counter.values.item import Item


def piece_in_hand(board: Board, cursor: int) -> Item:
    """The piece in hand; raises InputError when there is none."""
    item = _in_hand(board, cursor)
    if board.desk is None or item is None:
        raise InputError("Choose a line of stock, or type a stock number, to see the piece in full.")
    return item


def _in_hand(board: Board, cursor: int) -> Item | None:
    if not board.desk:
        return None
    typed = board.asked.reading.first("stock_number") if board.asked else ""
    found = board.desk.item(typed) if typed and not cursor else None
    rows = [] if board.buying else board.stock
    if found or cursor >= len(rows):
        return found
    return board.desk.item(rows[cursor].number)
