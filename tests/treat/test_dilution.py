"""Dilutions, against published worked examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.reference.treatments import Treatments
from counter.reference.treatments_reader import read_treatments
from counter.values.dilution import Dilution, dilute, read_portion
from counter.values.errors import InputError, UserError

SCALE = read_treatments().scale


def made(have: str, want: str) -> Dilution:
    return dilute(read_portion(have), read_portion(want), SCALE)


def test_the_worked_examples_are_the_references_own(treatments: Treatments) -> None:
    assert treatments.dilutions["dilution_9_to_3"].result == "100 mL water, 150 mL in all"
    assert treatments.dilutions["dilution_who"].given == "417 mL of 3 % peroxide made up to 10 L"


# who_handrub: WHO guide to local production (2010), 417 mL of 3 % made up to 10 L gives 0.125 %.
def test_the_who_example() -> None:
    answer = made("417 mL of 3 %", "0.1251 %")
    assert answer.total_ml == pytest.approx(10_000, rel=1e-3)
    answer = made("3 %", "10 L of 0.125 %")
    assert answer.take_ml == pytest.approx(417, rel=2e-3)


@pytest.mark.parametrize(
    ("have", "want", "add", "total"),
    [
        ("50 mL of 9 % w/v", "3 % w/v", 100, 150),  # who_handrub, dilution_9_to_3
        ("50 mL of 9 %", "3 %", 100, 150),
        ("1 L of 6 % w/v", "3 % w/v", 1000, 2000),  # who_handrub, dilution_6_to_3: equal parts
        ("25 mL of 12 % w/v", "3 % w/v", 75, 100),  # who_handrub, dilution_12_to_3
        ("10 ml of 20 vol", "10 vol", 10, 20),
        ("1 fl oz of 6 % w/v", "3 % w/v", 28.413, 56.826),  # the imperial ounce: 28.4131 mL
    ],
)
def test_what_to_add(have: str, want: str, add: float, total: float) -> None:
    answer = made(have, want)
    assert answer.add_water_ml == pytest.approx(add, rel=1e-4)
    assert answer.total_ml == pytest.approx(total, rel=1e-4)


def test_labels_of_different_kinds_never_come_out_too_strong() -> None:
    answer = made("10 mL of 20 vol", "3 %")
    strongest = read_portion("20 vol").label.readings(SCALE)[0].strength.percent_wv
    assert strongest * answer.take_ml / answer.total_ml <= 3.0 + 1e-9


@pytest.mark.parametrize(
    ("have", "want", "said"),
    [
        ("50 mL of 3 %", "6 %", "Water only weakens"),
        ("old bottle", "3 %", "not known"),
        ("10 mL of 9 % w/v", "100 mL of 3 % w/v", "not enough"),
    ],
)
def test_what_water_cannot_do(have: str, want: str, said: str) -> None:
    with pytest.raises(UserError, match=said):
        made(have, want)


@pytest.mark.parametrize(
    ("have", "want"),
    [("9 %", "3 %"), ("50 kg of 9 %", "3 %"), ("50 parsnips of 9 %", "3 %"), ("0 mL of 9 %", "3 %")],
)
def test_amounts_that_cannot_be_read(have: str, want: str) -> None:
    with pytest.raises(InputError, match="50 mL of 9 % w/v"):
        made(have, want)


@given(st.floats(0.1, 60), st.floats(0.05, 0.95), st.floats(0.5, 5000))
def test_no_peroxide_is_lost_or_made(strong: float, part: float, millilitres: float) -> None:
    answer = made(f"{millilitres:.3f} mL of {strong:.4f} % w/v", f"{strong * part:.4f} % w/v")
    before = answer.have.strength.percent_wv * answer.take_ml
    assert answer.want.strength.percent_wv * answer.total_ml == pytest.approx(before)
    assert answer.take_ml + answer.add_water_ml == pytest.approx(answer.total_ml)


def test_the_strength_in_hand_needs_no_water() -> None:
    answer = made("50 mL of 3 %", "3 %")
    assert (answer.add_water_ml, answer.total_ml) == (0.0, 50.0)


def test_the_small_word_may_be_left_out() -> None:
    assert made("50 mL 9 % w/v", "3 % w/v") == made("50 mL of 9 % w/v", "3 % w/v")
