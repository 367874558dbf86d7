"""Dates as they stand on screens, checked against the standard library's own reading of them."""

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.values.dates import day_words, short_day


@given(st.dates(date(1600, 1, 1), date(2100, 12, 31)))
def test_a_day_is_told_so_that_it_reads_back(day: date) -> None:
    assert datetime.strptime(day_words(day.isoformat()), "%d %B %Y").date() == day
    assert datetime.strptime(short_day(day.isoformat()).strip(), "%d %b %Y").date() == day
    assert len(short_day(day.isoformat())) == 11  # a column


@pytest.mark.parametrize(
    ("iso", "long", "short"),
    [
        ("1840-05", "May 1840", "May 1840"),
        ("1841-03", "March 1841", "Mar 1841"),
        ("1852", "1852", "1852"),
        ("", "", ""),
        ("about 1850", "about 1850", "about 1850"),
    ],
)
def test_what_is_no_whole_day_is_told_as_far_as_it_is_known(iso: str, long: str, short: str) -> None:
    assert (day_words(iso), short_day(iso)) == (long, short)
