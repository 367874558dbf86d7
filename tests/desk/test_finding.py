"""What of the stock belongs with the stamp in hand, against finding it by hand in every row."""

from datetime import datetime

import pytest

from counter.desk.desk import Desk
from counter.desk.identify.related_stock import found_in_stock, stamp_in_hand
from counter.desk.opening import open_desk
from counter.judge.finds import finds
from counter.reference.library import Library
from counter.values.item import Item
from counter.values.record import read_record

NOW = datetime.fromisoformat("2026-05-02T10:00:00+01:00")


@pytest.fixture(scope="module")
def desk():
    opened = open_desk(None, demo=True, library=Library(), clock=lambda: NOW)
    opened.index_all()
    yield opened
    opened.close()


def test_the_same_finds_as_looking_at_every_item(desk: Desk) -> None:
    stock = [read_record(Item, dict(row)) for row in desk.ledger.rows("items")]
    some = [each for each in stock if finds(each, stock, desk.library.stamps)]
    assert len(some) >= 5
    for item in some:
        every = [(find.number, find.words) for find in finds(item, stock, desk.library.stamps)]
        assert [(line.number, line.why) for line in found_in_stock(desk, item)] == every


def test_the_line_makes_the_stamp_in_hand(desk: Desk) -> None:
    item = stamp_in_hand(desk.ask("1d black pl 6 KC KD"), "penny_black_1840")
    assert item == Item("", issue="penny_black_1840", plate="6", letters=("KC", "KD"))
    number = desk.ledger.rows("items")[0]["number"]
    assert stamp_in_hand(desk.ask(number), "").number == number


def test_letters_without_a_plate_find_nothing(desk: Desk) -> None:
    assert found_in_stock(desk, Item("", issue="penny_black_1840", letters=("KC",))) == ()
