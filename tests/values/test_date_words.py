"""Dates in words: the same as the ask line reads, and one sentence for what is none."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.values.date_words import date_of_words, day_of_words
from counter.values.dates import MONTHS
from counter.values.errors import InputError

VOCABULARY = Library().vocabulary


@pytest.mark.parametrize(
    ("text", "iso"),
    [
        ("12 may 1840", "1840-05-12"),
        ("12 May 1840", "1840-05-12"),
        ("12th of May 1840", "1840-05-12"),
        ("may 12th, 1840", "1840-05-12"),
        ("12.5.1840", "1840-05-12"),
        ("12/5/40", "1840-05-12"),
        ("12 may 40", "1840-05-12"),
        ("3 sept 1842", "1842-09-03"),
        ("feby 1841", "1841-02"),
        ("1841 may", "1841-05"),
        ("1841", "1841"),
        ("1840-05-12", "1840-05-12"),
    ],
)
def test_as_the_ask_line_reads_them(text: str, iso: str) -> None:
    assert date_of_words(text).text == iso
    assert read_line(f"1d black {text}", VOCABULARY).first("date") == iso


@given(st.dates(date(1600, 1, 1), date(2100, 1, 1)), st.sampled_from(["{0} {1} {2}", "{1} {0}, {2}"]))
def test_every_day_comes_back(day: date, form: str) -> None:
    typed = form.format(day.day, MONTHS[day.month - 1], day.year)
    assert day_of_words(typed) == day_of_words(day.isoformat()) == day.isoformat()


def test_two_figures_of_a_year_are_of_the_century_that_is_meant() -> None:
    assert date_of_words("1.5.26").text == "1826-05-01"
    assert day_of_words("1.5.26") == day_of_words("1 may 26") == "2026-05-01"


@pytest.mark.parametrize("text", ["", "31 feb 1840", "12 mai 1840", "0.5.1840", "12.13.1840", "yes\0"])
def test_what_is_no_date_is_said_in_one_sentence(text: str) -> None:
    for read in (date_of_words, day_of_words):
        with pytest.raises(InputError, match="is not a date; write it like"):
            read(text)


@pytest.mark.parametrize("text", ["may 1840", "1840"])
def test_a_day_of_business_is_one_day(text: str) -> None:
    with pytest.raises(InputError, match="2026-05-01"):
        day_of_words(text)


@given(st.text(max_size=30))
def test_nothing_typed_breaks_it(text: str) -> None:
    try:
        assert day_of_words(text)
    except InputError as said:
        assert str(said).endswith(".")
