"""Which cover is meant when the check is opened from the counter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk.covers.session import open_notes

if TYPE_CHECKING:
    from counter.desk.covers.session import CoverNotes
    from counter.tui.board import Board
    from counter.values.item import Item

_COVERS = ("cover", "entire", "front", "piece")


def notes_in_hand(board: Board, chosen: int) -> CoverNotes:
    """The notes of the cover meant; `chosen` is the row of the stock list that is marked."""
    desk = board.desk
    assert desk is not None
    item = _item_meant(board, chosen)
    text = board.asked.text if board.asked else board.text
    board.cover = open_notes(desk, text, item, board.cover)
    return board.cover


def _item_meant(board: Board, chosen: int) -> Item | None:
    """A cover that the arrow keys chose (or any, under an empty line); else the stock number typed."""
    desk = board.desk
    assert desk is not None
    if chosen < len(board.stock) and (chosen or not board.text.strip()):
        item = desk.item(board.stock[chosen].number)
        if item is not None and (item.attachment in _COVERS or item.cover is not None):
            return item
    number = board.asked.reading.first("stock_number") if board.asked else ""
    return desk.item(number) if number else None
