"""What the search tests share: names of the reference, a few pieces, an index over them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from counter.describe.names import Names, issue_names
from counter.reference.library import Library
from counter.search.hit import Hit
from counter.search.index import StockIndex
from counter.values.item import CoverFacts, Item

PIECES = (
    Item(
        "WK-1",
        "penny_black_1840",
        plate="6",
        letters=("KC", "KD"),
        multiple="pair",
        margins=("4", "3"),
        cancel="maltese_cross",
        cancel_colour="red",
        attachment="cover",
        cover=CoverFacts("1840-05-12", "Wexholm", "Ludmere", tied="tied"),
        asking=24000,
    ),
    Item(
        "WK-2",
        "penny_black_1840",
        plate="6",
        letters=("KC",),
        margins=("4",),
        cancel="maltese_cross",
        cancel_colour="red",
        asking=9500,
        kept="red album p. 4",
    ),
    Item(
        "WK-3",
        "penny_red_imperf_alphabet_one",
        plate="36",
        letters=("KC",),
        margins=("4",),
        cancel="maltese_cross",
        cancel_colour="black",
        asking=2500,
    ),
    Item(
        "WK-14",
        "penny_red_four_letters",
        plate="148",
        letters=("CKKC",),
        cancel="numeral",
        cancel_number="46",
        asking=300,
    ),
    Item("WK-15", "two_pence_1840_no_lines", plate="1", letters=("AB",), margins=("2",), asking=30000),
    Item(
        "WK-16",
        "two_pence_1841_white_lines",
        plate="3",
        letters=("AB",),
        margins=("2",),
        asking=3000,
        status="sold",
    ),
    Item("WK-17", "g5_1912_simple_cypher", denomination="½d", colour="green", cancel="cds", asking=50),
)


@pytest.fixture(scope="session")
def names() -> Names:
    return issue_names(Library().stamps)


@pytest.fixture
def index(names: Names) -> StockIndex:
    made = StockIndex(names)
    for piece in PIECES:
        made.put(piece)
    return made


@pytest.fixture
def numbers(index: StockIndex) -> Callable[[str], list[str]]:
    def found(text: str) -> list[str]:
        return [hit.number for hit in index.find(text)]

    return found


def shown(hit: Hit) -> list[str]:
    """The emphasised parts of a line."""
    return [hit.line[start:end] for start, end in hit.spans]
