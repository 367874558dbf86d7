"""The gauge: holes in two centimetres (the published definition), its error, and what it leaves."""

import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.cli.main import main
from counter.judge.gauge import gauge_for, read_gauges
from counter.reference.stamps import Stamps
from counter.values.errors import InputError
from counter.values.gauge import measure, read_gauge, read_length


def test_the_published_definition(stamps: Stamps) -> None:
    """Reference sheet "gauge_definition": perforation number = holes in two centimetres."""
    assert (
        stamps.sheets["gauge_definition"].definition == "perforation number = holes in two centimetres"
    )
    assert measure(14, 20).value == 14
    assert measure(20, 25).value == pytest.approx(16)


def test_the_uncertainty_is_the_guides(stamps: Stamps) -> None:
    """JCGM 100:2008, 4.3.7 (even distribution: limit over root 3), 5.1.2 (squares add), 6.2 (k = 2)."""
    got = measure(20, 25).plus_minus
    count, length = 0.25 / math.sqrt(3) / 20, 0.25 / math.sqrt(3) / 25
    assert got == pytest.approx(2 * 16 * math.sqrt(count**2 + length**2))


@given(st.integers(8, 300), st.floats(10, 400))
def test_counting_twice_as_far_is_twice_as_sure(holes: int, length: float) -> None:
    once, twice = measure(holes, length), measure(2 * holes, 2 * length)
    assert twice.value == pytest.approx(once.value)
    assert twice.plus_minus == pytest.approx(once.plus_minus / 2)


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("25 mm", 25), ("25mm", 25), ("25", 25), ("2.5 cm", 25), ("2,5cm", 25), ("0.025 m", 25),
        ("1 inch", 25.4), ('1"', 25.4), ("½ in", 12.7), ("1/2 inch", 12.7), ("1 1/2 in", 38.1),
        ("0.1 foot", 30.48), ("25 MM", 25),
    ],
)  # fmt: skip
def test_lengths_in_any_unit(text: str, millimetres: float) -> None:
    """International yard of 1959: one inch is 25.4 mm exactly."""
    assert read_length(text) == pytest.approx(millimetres)


@given(st.text(max_size=15))
def test_no_text_breaks_the_reader_of_lengths(text: str) -> None:
    try:
        assert read_length(text) >= 0
    except InputError as bad:
        assert str(bad).endswith(".")


@pytest.mark.parametrize(
    ("text", "sides"), [("14", (14, 14)), ("15½x15", (15.5, 15)), ("11½x11½", (11.5, 11.5))]
)
def test_gauges_as_the_reference_writes_them(text: str, sides: tuple[float, float]) -> None:
    assert read_gauge(text) == sides


def test_every_issue_agrees_with_its_own_gauge(stamps: Stamps) -> None:
    for issue in stamps.issues.values():
        for gauge in issue.characters.gauges:
            top, side = (measure(each, 20) for each in read_gauge(gauge))
            assert issue.id in read_gauges(stamps, top, side).issues
            assert issue.id in read_gauges(stamps, top).issues
            assert gauge_for(issue, stamps, top, side).verdict == "can be its own gauge"


def test_sixteen_is_told_from_fourteen(stamps: Stamps) -> None:
    read = read_gauges(stamps, measure(20, 25))
    assert read.agrees_with == (16.0,)
    assert set(read.issues) == {
        each.id for each in stamps.issues.values() if "16x16" in each.characters.gauges
    }


def test_unequal_sides(stamps: Stamps) -> None:
    read = read_gauges(stamps, measure(30, 40), measure(28, 40))
    assert (read.sides, read.agrees_with, read.agrees_down) == ("unequal", (15.0,), (14.0,))
    assert "g5_1912_simple_cypher" in read.issues and "due_1914_simple_cypher" not in read.issues
    penny = stamps.issues["penny_red_four_letters"]
    judged = gauge_for(penny, stamps, measure(30, 40), measure(28, 40))
    assert judged.verdict == "cannot be a genuine gauge for this issue"


def test_an_imperforate_issue_has_no_gauge(stamps: Stamps) -> None:
    judged = gauge_for(stamps.issues["penny_black_1840"], stamps, measure(14, 20))
    assert judged.verdict == "cannot be a genuine gauge for this issue"
    assert "imperforate" in judged.reasons[0].text


def test_the_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["gauge", "--holes", "20", "--over", "25 mm", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["gauge"], told["agrees_with"]) == (16.0, [16.0])
    assert 0 < told["plus_minus"] < 0.5
    side = ["--down-holes", "14", "--down-over", "20 mm", "--issue", "penny_red_four_letters"]
    assert main(["gauge", "--holes", "15", "--over", "20 mm", *side]) == 0
    assert "cannot be a genuine gauge" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words",
    [
        ["--holes", "20", "--over", "3 kg"],
        ["--holes", "0", "--over", "20 mm"],
        ["--holes", "nan", "--over", "20 mm"],
        ["--holes", "20", "--over", "0 mm"],
        ["--holes", "20", "--over", "20 mm", "--down-holes", "3"],
        ["--holes", "20", "--over", "20 mm", "--issue", "nothing"],
        ["--holes", "many", "--over", "20 mm"],
    ],
)
def test_bad_figures_are_answered_with_one_sentence(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["gauge", *words]) == 2
    assert capsys.readouterr().err.count("\n") == 1
