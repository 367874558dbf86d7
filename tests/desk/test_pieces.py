"""Typed words into a stock item: one stamp into its fields, several into none, and nothing dropped."""

from __future__ import annotations

import pytest

from counter.desk.stock.item_from_text import read_piece
from counter.reference.library import Library
from counter.values.item import Item

LIBRARY = Library()


@pytest.mark.parametrize(
    "words",
    [
        "lot of 3: 1d red, 2d blue, 1d black",
        "a small collection of 20 1d reds",
        "1d red, 2d blue, 1d black",  # no one stamp is 1d and 2d
    ],
)
def test_several_stamps_fill_no_field_of_one(words: str) -> None:
    piece = read_piece(words, LIBRARY)
    assert piece.item == Item("", words=words)
    assert not piece.sure


@pytest.mark.parametrize(
    ("words", "left"),
    [
        ("1d red and 2d blue on cover to france 1856", "2d blue"),  # one cover with two stamps
        ("1d black red mx and black mx", "black mx"),
        ("1d red pl 148 KC 4 margins", ""),
    ],
)
def test_what_no_field_holds_stays_as_words(words: str, left: str) -> None:
    item = read_piece(words, LIBRARY).item
    assert item.denomination == "1d" and item.words == left
