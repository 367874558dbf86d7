"""What is typed at a stall finds the piece that was meant. Ways of writing: common practice."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from counter.search.index import StockIndex
from counter.values.item import Item

Numbers = Callable[[str], list[str]]


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("1d blk imp KC sm crown", "WK-2"),  # the watermark is in the reference, not in the line
        ("1d black kc", "WK-2"),
        ("kc 1d blk", "WK-2"),
        ("1d red kc", "WK-3"),
        ("1d red pl 148", "WK-14"),
        ("pl148", "WK-14"),
        ("plate 148", "WK-14"),
        ("2d blu no lines", "WK-15"),
        ("2d blue white lines", "WK-16"),
        ("blakc k c", "WK-2"),
        ("1dblack pair", "WK-1"),
        ("pl6kc", "WK-2"),
        ("maltese cross red", "WK-2"),
        ("mx black", "WK-3"),
        ("numral 46", "WK-14"),
        ("penny black on cover wexholm", "WK-1"),
        ("12 may 1840", "WK-1"),
        ("1/2d grn", "WK-17"),
        ("ckkc", "WK-14"),
        ("red album", "WK-2"),
        ("george 5", "WK-17"),
    ],
)
def test_the_piece_meant_comes_first(numbers: Numbers, typed: str, first: str) -> None:
    assert numbers(typed)[0] == first


@pytest.mark.parametrize("typed", ["WK-14", "wk-14", "wk14", "wk 14", "WK-0014"])
def test_a_stock_number_is_found_however_it_is_typed(numbers: Numbers, typed: str) -> None:
    assert numbers(typed) == ["WK-14"]


def test_a_stock_number_still_being_typed_brings_those_it_may_become(numbers: Numbers) -> None:
    assert numbers("wk-1")[0] == "WK-1"
    assert set(numbers("wk-1")) == {"WK-1", "WK-14", "WK-15", "WK-16", "WK-17"}


def test_the_figures_of_a_stock_number_are_enough(numbers: Numbers) -> None:
    assert numbers("15")[0] == "WK-15"
    assert numbers("148")[0] == "WK-14"  # no such number: the plate


def test_price_bounds_and_status_are_kept_strictly(numbers: Numbers) -> None:
    assert set(numbers("kc under 100")) == {"WK-2", "WK-3", "WK-14"}
    assert set(numbers("kc under £50")) == {"WK-3", "WK-14"}
    assert numbers("1d over £100") == ["WK-1"]
    assert set(numbers("£20-£100")) == {"WK-2", "WK-3", "WK-16"}
    assert numbers("2d sold") == ["WK-16"]
    assert numbers("under 1") == ["WK-17"]


def test_lines_in_stock_come_before_sold_ones(numbers: Numbers) -> None:
    assert numbers("2d blue ab 2 margins") == ["WK-15", "WK-16"]


def test_words_no_line_has_do_not_kill_the_matches(numbers: Numbers) -> None:
    assert numbers("1d black kc quincunx zzz")[0] == "WK-2"
    assert numbers("xyzzy plugh") == []


def test_letters_and_plates_are_exact(numbers: Numbers) -> None:
    assert "WK-15" not in numbers("kc ")
    assert numbers("pl 6 ")[:2] == ["WK-2", "WK-1"]
    assert "WK-3" not in numbers("pl 3 ")  # plate 36 is not plate 3


def test_every_letters_of_a_multiple_finds_it(names: object, index: StockIndex) -> None:
    index.put(
        Item("WK-30", "penny_black_1840", letters=("MA", "MB", "MC"), multiple="strip_3", plate="2")
    )
    assert index.find("mb")[0].number == "WK-30"  # only MA-MC stands in the line
    assert index.find("strip of 3")[0].number == "WK-30"
    assert index.find("strip 3")[0].number == "WK-30"


def test_why_it_matched_is_emphasised_in_the_line(index: StockIndex) -> None:
    hit = index.find("1d blk pl6 k c 4 mgns mx")[0]
    parts = [hit.line[start:end] for start, end in hit.spans]
    assert hit.line == "1d black pl 6 KC, 4 margins, red MX"
    assert parts == ["1d", "black", "pl 6", "KC", "4 margins", "MX"]
    begun = index.find("1d bla")[0]
    assert [begun.line[start:end] for start, end in begun.spans] == ["1d", "bla"]


def test_what_a_line_does_not_answer_is_said(index: StockIndex) -> None:
    hits = {hit.number: hit for hit in index.find("1d red pl 148")}
    assert hits["WK-14"].missed == ()
    assert hits["WK-3"].missed == ("pl 148",)
    assert index.find("wk-14")[0].in_number
    assert not index.find("pl 148")[0].in_number


def test_a_black_stamp_is_not_a_black_cancel(numbers: Numbers) -> None:
    assert numbers("1d black")[:2] == ["WK-2", "WK-1"]
    assert numbers("black mx")[0] == "WK-3"
    assert numbers("1d blk mx")[0] == "WK-2"  # after a value the colour is the stamp's


def test_what_was_put_again_dropped_or_put_in_between_is_followed(index: StockIndex) -> None:
    index.put(Item("WK-2", "two_pence_1841_white_lines", plate="4", letters=("TL",)))
    assert index.find("tl")[0].number == "WK-2"
    assert all(hit.number != "WK-2" for hit in index.find("1d black kc"))
    index.drop("WK-2")
    assert "WK-2" not in index
    assert all(hit.number != "WK-2" for hit in index.find("tl"))
    index.drop("WK-2")  # no trouble


def test_a_number_noted_meanwhile_is_not_overwritten_by_the_first_filling(index: StockIndex) -> None:
    old = [Item("WK-2", "penny_black_1840", letters=("AA",)), Item("WK-40", "penny_black_1840")]
    index.drop("WK-40")
    assert list(index.put_many(old, chunk=1)) == [1, 2]
    assert index.line("WK-2").startswith("1d black pl 6 KC")
    assert "WK-40" not in index
