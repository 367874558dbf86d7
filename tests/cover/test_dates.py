"""Partial dates, checked against the standard library's own calendar."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.values.dates import on_day, read_date
from counter.values.errors import InputError

DAYS = st.dates(date(1801, 1, 1), date(1990, 12, 31))
PARTS = DAYS.flatmap(lambda day: st.sampled_from([f"{day:%Y-%m-%d}", f"{day:%Y-%m}", f"{day:%Y}"]))


@pytest.mark.parametrize(
    ("text", "first", "last", "words"),
    [
        ("1840-05-12", date(1840, 5, 12), date(1840, 5, 12), "12 May 1840"),
        ("1840-02", date(1840, 2, 1), date(1840, 2, 29), "February 1840"),
        ("1900-02", date(1900, 2, 1), date(1900, 2, 28), "February 1900"),
        ("1841", date(1841, 1, 1), date(1841, 12, 31), "1841"),
    ],
)
def test_the_bounds_of_a_partial_date(text: str, first: date, last: date, words: str) -> None:
    when = read_date(text)
    assert (when.earliest, when.latest, when.words()) == (first, last, words)


@pytest.mark.parametrize(
    "text", ["", "12 mar 1842", "1842-13", "1842-00", "1841-02-29", "1842-3-1", "0000", "42"]
)
def test_what_is_no_date_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(InputError, match="1842-03-12"):
        read_date(text)


@given(PARTS, PARTS)
def test_comparing_two_dates(one: str, other: str) -> None:
    a, b = read_date(one), read_date(other)
    opposite = {"before": "after", "after": "before", "may overlap": "may overlap"}
    assert a.compared(b) == opposite[b.compared(a)]
    shared = max(a.earliest, b.earliest) <= min(a.latest, b.latest)
    assert (a.compared(b) == "may overlap") == shared


@given(PARTS, PARTS, PARTS)
def test_yes_and_no_hold_for_every_day_that_may_be_meant(text: str, start: str, end: str) -> None:
    when, first, last = read_date(text), read_date(start), read_date(end)
    answer = when.within(first, last)
    for day in (when.earliest, when.latest):
        if answer == "yes":
            assert first.latest <= day <= last.earliest
        elif answer == "no":
            assert day < first.earliest or day > last.latest
    neighbour = on_day(when.latest + timedelta(1))
    assert when.compared(neighbour) == "before"
