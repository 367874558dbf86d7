"""The words of a cover's answer: nothing said that was not established, and in plain figures."""

from datetime import date
from fractions import Fraction

import pytest

from counter.desk.covers.case import open_case
from counter.judge.cover.question import RateQuestion
from counter.judge.cover.rates import days_of_change, rate_for
from counter.reference.library import Library
from counter.values.dates import When, read_date

LIBRARY = Library()


def said(text: str, check: str) -> str:
    return next(each.reason for each in open_case(LIBRARY, text).found.results if each.id == check)


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [
        (date(1840, 5, 6), date(1840, 5, 8), "6 May 1840 to 8 May 1840"),
        (date(1840, 5, 1), date(1840, 5, 31), "May 1840"),
        (date(1857, 2, 1), date(1857, 5, 31), "February 1857 to May 1857"),
        (date(1854, 1, 1), date(1855, 12, 31), "1854 to 1855"),
    ],
)
def test_a_span_is_said_by_its_ends(first: date, last: date, words: str) -> None:
    assert When("", first, last).words() == words


def test_the_day_of_the_first_2d_is_told_as_its_sources_give_it() -> None:
    # 6 May 1840 by one source, 8 May by the trade (memory): both ends are said
    assert "between 6 May 1840 and 8 May 1840" in said(
        "2d blue no lines 5 may 1840", "date_before_issue"
    )


def test_what_no_weight_pays_is_said_with_the_rate_of_the_day() -> None:
    # London to France, 3d for a third of an ounce (philatelic press, letter of 10 April 1871)
    words = said("2½d rosy mauve to paris 3 aug 1875", "rate_match")
    assert "on 3 August 1875: the rate was 3d up to ⅓ oz" in words
    assert "by miles and sheets" in said("penny red on 1838 letter", "rate_match")


def test_a_weight_that_nobody_gave_is_not_named() -> None:
    assert "0.01" not in said("1d red imperf late fee franked 2d 1850 london", "service_fits")


def test_the_chart_draws_the_stamp_that_the_reasons_name() -> None:
    for text in ("1d red tied red mx london 3 jan 1841", "1d red guernsey 1870"):
        case = open_case(LIBRARY, text)
        assert case.chart is not None
        reason = next(each.reason for each in case.found.results if each.id == "date_before_issue")
        assert case.chart.bars[0].label in reason


def test_an_overprint_that_nobody_saw_is_not_the_stamp() -> None:
    assert not any("OFFICIAL" in each.name for each in open_case(LIBRARY, "1d lilac 1897").seen.stamps)
    named = open_case(LIBRARY, "1d lilac army official 1897").seen.stamps
    assert "ARMY OFFICIAL" in named[0].name


def test_stationery_is_told_as_a_caution() -> None:
    assert "impressed" in open_case(LIBRARY, "1d pink stationery 1 feb 1841").found.cautions[-1]


def test_a_franking_is_the_sum_of_all_its_stamps() -> None:
    said_of = said(
        "1d red pl 148 and 4d vermilion pl 12 registered 3 jun 1871 half ounce", "rate_match"
    )
    assert "Franked 5d (1d + 4d" in said_of
    assert "2d (2 x 1d" in said("two 1d red imperf 3 may 1842 1 oz", "rate_match")
    assert "2d (1d + 1d" in said("1d black and 1d red imperf 3 mar 1841 1 oz", "rate_match")


@pytest.mark.parametrize(
    ("to", "year", "known"), [("Ireland", "1850", True), ("Ireland", "1930", False)]
)
def test_ireland_was_inland_to_december_1922(to: str, year: str, known: bool) -> None:
    # common practice: the Irish Free State began on 6 December 1922
    answer = rate_for(LIBRARY.postal, RateQuestion(read_date(year), Fraction(1, 2), to=to))
    assert (answer.pence is not None) == known


def test_the_days_on_which_some_rate_began() -> None:
    assert days_of_change(LIBRARY.postal, read_date("1840-01")) == (date(1840, 1, 1), date(1840, 1, 10))
