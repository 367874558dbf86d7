"""How many stamps a line names, and when a letter is one without any (common practice of the trade)."""

import pytest

from counter.desk.covers.case import CoverCase, open_case
from counter.reference.library import Library

LIBRARY = Library()


def case(typed: str) -> CoverCase:
    return open_case(LIBRARY, typed)


@pytest.mark.parametrize(
    ("typed", "sum_", "counts"),
    [
        ("two 1d red imperf", "2d", [2]),
        ("2 x 1d red", "2d", [2]),
        ("1d red x 2 and 2d blue", "4d", [2, 1]),
        ("two copies of the 1d red imperf", "2d", [2]),
        ("two singles of the 1d red", "2d", [2]),
        ("four 2d blue and two 1d red", "10d", [4, 2]),
        ("1d red and 2 x ½d rose", "2d", [1, 2]),
        ("pair of 1d red and 2d blue", "4d", [2, 1]),
        ("12 x 1d red", "1s", [12]),
        ("numbered cross 5 1d red imperf", "1d", [1]),  # the number of the cross, not of stamps
        ("1d red imperf 3 margins", "1d", [1]),
    ],
)
def test_every_stamp_of_a_franking_is_counted_once(typed: str, sum_: str, counts: list[int]) -> None:
    seen = case(typed).seen
    assert seen.paid and seen.paid.words() == sum_
    assert [seen.count, *(each.count for each in seen.beside)] == counts


@pytest.mark.parametrize(
    ("typed", "stampless"),
    [
        ("unpaid 2 leeds to york 7 aug 1846", True),
        ("entire 1838 london to edinburgh ms 1/1½ single", True),
        ("free front 1837 london", True),
        ("letter of 3 feb 1839 bath to london 107 miles charged 9", True),
        ("1d black red mx 3 mar 1839", False),  # a stamp is named: its date speaks against it
        ("tied numeral 466 on cover unpaid 2 liverpool 3 mar 1848", False),
        ("letter leeds to york 7 aug 1846", False),
    ],
)
def test_a_letter_that_names_no_stamp_and_a_charge_went_without_one(
    typed: str, stampless: bool
) -> None:
    assert case(typed).seen.stampless is stampless


@pytest.mark.parametrize(
    ("typed", "speaks"),
    [
        ("1d red imperf tied mx leeds 12 mar 1842, letter inside dated 10 mar 1842", "neutral"),
        ("1d red imperf tied mx on letter dated 12 mar 1842 leeds", "neutral"),
        ("1d red imperf tied mx leeds 12 mar 1842, contents dated 4 jun 1846", "against"),
        ("1d black tied red mx, cds bath 4 june 1840, letter headed 2 feb 1839", "against"),
    ],
)
def test_a_gap_between_letter_and_strike_speaks(typed: str, speaks: str) -> None:
    found = case(typed).found
    assert next(each.speaks for each in found.results if each.id == "letter_content") == speaks
