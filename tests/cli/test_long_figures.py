"""What a fuzz of the readers found: each is one sentence now.

Python itself refuses to read a whole number of more than 4,300 figures (its documentation, "Integer
string conversion length limitation"); the marks of direction are those of UAX #9, Bidi_Control.
"""

from __future__ import annotations

import unicodedata

import pytest

from counter.cli.main import main
from counter.values.errors import InputError
from counter.values.postage import read_number, read_postage
from counter.values.visible import visible, visible_lines

LONG = "9" * 5_000
BIDI_CONTROL = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"


@pytest.mark.parametrize("text", [LONG, f".{LONG}", f"1.{LONG}", f"{LONG}½"])
def test_a_number_of_too_many_figures(text: str) -> None:
    with pytest.raises(InputError):
        read_number(text)


@pytest.mark.parametrize(
    "text", [f"{LONG}d", f"{LONG}s", f"{LONG} x 1d", f"£{LONG}", f"{LONG}p", f"1/{LONG}"]
)
def test_postage_of_too_many_figures(text: str) -> None:
    with pytest.raises(InputError):
        read_postage(text)


@pytest.mark.parametrize("text", ["2x3x1d", "99x93 % 9\r 3 x", "2x", "x1d"])
def test_postage_of_too_many_times(text: str) -> None:
    with pytest.raises(InputError):
        read_postage(text)


@pytest.mark.parametrize(
    "words",
    [
        ["letters", LONG],
        ["letters", "٣"],
        ["rate", "--date", "1842", "--sheets", f"000000001{LONG}"],
        ["rate", "--date", "1842", "--redirected", "0" * 9 + LONG],
        ["rate", "--date", "1842", "--ounces", LONG],
    ],
)
def test_commands_of_too_many_figures(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    said = capsys.readouterr()
    assert said.out == "" and said.err.count("\n") == 1


def test_no_mark_of_direction_and_no_separator_of_lines_is_printed() -> None:
    assert {unicodedata.bidirectional(each) for each in BIDI_CONTROL} <= {
        *("AL", "L", "R", "LRE", "RLE", "PDF", "LRO", "RLO", "LRI", "RLI", "FSI", "PDI"),
    }
    for each in (*BIDI_CONTROL, "\u2028", "\u2029"):
        assert each not in visible(f"a{each}b") and each not in visible_lines(f"a{each}b")
