"""Postage in words and back; 12 pence a shilling, 20 shillings a pound (common knowledge)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.values.errors import InputError
from counter.values.postage import Postage, number_words, read_number, read_postage


@pytest.mark.parametrize(
    ("text", "pence", "unit"),
    [
        ("1d", 1, "d"),
        ("½d", Fraction(1, 2), "d"),
        ("1 1/2d", Fraction(3, 2), "d"),
        ("1.5d", Fraction(3, 2), "d"),
        ("1s", 12, "d"),
        ("1s1d", 13, "d"),
        ("2s6d", 30, "d"),
        ("2/6", 30, "d"),
        ("1/-", 12, "d"),
        ("£1", 240, "d"),
        ("2 x 1d", 2, "d"),
        ("2x1d + 4d", 6, "d"),
        ("1d and ½d", Fraction(3, 2), "d"),
        ("2½p", Fraction(5, 2), "p"),
        ("8.5p", Fraction(17, 2), "p"),
    ],
)
def test_reading_postage(text: str, pence: Fraction | int, unit: str) -> None:
    assert read_postage(text) == Postage(Fraction(pence), unit)  # type: ignore[arg-type]


@pytest.mark.parametrize("text", ["", "penny", "1d + 2p", "-1d", "1", "d", "1d+", "x 1d"])
def test_what_is_no_postage_is_refused(text: str) -> None:
    with pytest.raises(InputError):
        read_postage(text)


@given(st.integers(0, 4000), st.sampled_from("dp"))
def test_words_read_back_to_the_same_amount(farthings: int, unit: str) -> None:
    amount = Postage(Fraction(farthings, 4), unit)  # type: ignore[arg-type]
    assert read_postage(amount.words()) == amount


def test_pounds_shillings_and_pence() -> None:
    assert Postage(Fraction(271), "d").words() == "£1 2s 7d"
    assert Postage(Fraction(27, 2), "d").words() == "1s 1½d"
    assert Postage(Fraction(0), "d").words() == "0d"


@given(st.fractions(0, 100, max_denominator=12))
def test_numbers_read_back(number: Fraction) -> None:
    if number.denominator <= 9:
        assert read_number(number_words(number)) == number


@pytest.mark.parametrize("text", ["", "1/0", "half", "1.5½", "-1"])
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(InputError):
        read_number(text)
