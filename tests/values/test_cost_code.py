"""The dealer's own cost code: ten letters for 1 to 9 and 0; the codes beside each are worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.values.cost_code import in_code, out_of_code, read_code_letters
from counter.values.errors import InputError

LETTERS = "BLACKHORSE"  # B1 L2 A3 C4 K5 H6 O7 R8 S9 E0


@pytest.mark.parametrize(
    ("pence", "code"),
    [(4500, "CK"), (12000, "BLE"), (4550, "CK/KE"), (5, "E/EK"), (98765, "SRO/HK"), (0, "E")],
)
def test_a_cost_in_letters(pence: int, code: str) -> None:
    assert in_code(pence, LETTERS) == code


@given(st.integers(0, 10**9))
def test_a_code_reads_back(pence: int) -> None:
    assert out_of_code(in_code(pence, LETTERS), LETTERS) == pence


def test_ten_different_letters_or_none() -> None:
    assert (
        read_code_letters("black horse") == LETTERS
        and read_code_letters("") == ""
        and in_code(4500, "") == ""
    )
    for wrong in ("black", "black arrow", "blackhorsey", "blackh0rse"):
        with pytest.raises(InputError, match="ten different letters"):
            read_code_letters(wrong)
    with pytest.raises(InputError, match="not written in your cost code"):
        out_of_code("XY", LETTERS)
