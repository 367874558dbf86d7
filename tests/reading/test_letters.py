"""Check letters against the published examples of the reference, shapes, plates and finds."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.cli.main import main
from counter.judge.finds import finds
from counter.judge.letters import adjoins, drawn, judge_letters, plate_judgement, shape_of, sheet_map
from counter.reference.stamps import Stamps
from counter.reference.vocabulary import Vocabulary
from counter.values.errors import InputError
from counter.values.item import Item
from counter.values.letters import (
    Format,
    counts,
    letters_of_number,
    mirrored,
    place,
    read_format,
    read_letters,
)

ONE_PENNY, HALFPENNY = Format(20, 12), Format(20, 24)


@pytest.mark.parametrize("rule", ["sheet_240", "sheet_480_halfpenny"])
def test_published_positions(rule: str, stamps: Stamps) -> None:
    """The worked positions that each lettering rule quotes from the sources it names."""
    told = stamps.lettering[rule]
    sheet = Format(told.rows, told.columns)
    assert sheet.stamps == told.stamps
    for example in told.examples:
        found = place(read_letters(example.letters), sheet)
        assert found is not None
        assert (found.row, found.column, found.number) == (example.row, example.column, example.number)


def test_published_upper_corners(stamps: Stamps) -> None:
    for example in stamps.lettering["upper_corners_reversed"].examples:
        assert mirrored(read_letters(example.upper + example.lower))


def test_published_impossible_letterings(stamps: Stamps) -> None:
    for example in stamps.lettering["impossible_letterings"].examples:
        letters = read_letters(example.letters)
        on_240, on_480 = place(letters, ONE_PENNY), place(letters, HALFPENNY)
        possible = (on_240 is not None, on_480 is not None)
        meant = {
            "impossible on 1d, 1 1/2d, 2d; possible on 1/2d": (False, True),
            "possible on all": (True, True),
            "impossible on all": (False, False),
        }
        assert possible == meant[example.verdict]


def test_every_sheet_of_the_reference_numbers_its_stamps_once(stamps: Stamps) -> None:
    sheets = {(each.characters.rows, each.characters.columns) for each in stamps.issues.values()}
    for rows, columns in sheets - {(0, 0)}:
        sheet = Format(rows, columns)
        for number in range(1, sheet.stamps + 1):
            found = place(letters_of_number(number, sheet), sheet)
            assert found is not None and found.number == number


@pytest.mark.parametrize(
    ("letters", "adjoin", "shape"),
    [
        ("KC KD", True, "horizontal pair"),
        ("KD KC", True, "horizontal pair"),
        ("KC LC", True, "vertical pair"),
        ("AL BA", False, "not adjoining"),
        ("KC LD", False, "not adjoining"),
        ("KC KC", False, "not adjoining"),
        ("KC KD KE", True, "horizontal strip of 3"),
        ("KC KD LC LD", True, "block of 4"),
        ("KC KD KE LC LD LE", True, "block of 6 (2 rows of 3)"),
        ("KC KD LC", True, "irregular block of 3"),
        ("KC KD KF", False, "not adjoining"),
        ("KC", None, "single"),
        ("CKKC DKKD", True, "horizontal pair"),
    ],
)
def test_what_adjoins(
    letters: str, adjoin: bool | None, shape: str, stamps: Stamps, vocabulary: Vocabulary
) -> None:
    read = judge_letters(letters.split(), ONE_PENNY, stamps, vocabulary.lettering_errors)
    assert (read.adjoin, read.shape) == (adjoin, shape)


@given(st.sets(st.tuples(st.integers(1, 5), st.integers(1, 5)), min_size=2, max_size=8))
def test_shape_and_adjoining_agree_whatever_the_order(squares: set[tuple[int, int]]) -> None:
    assert (shape_of(squares) == "not adjoining") != adjoins(squares)
    turned = {(column, row) for row, column in squares}
    told, back = shape_of(squares), shape_of(turned)
    pairs = {"horizontal": "vertical", "vertical": "horizontal"}
    first, _, rest = told.partition(" ")
    if first in pairs:
        assert back == f"{pairs[first]} {rest}"


@pytest.mark.parametrize(
    ("letters", "words"),
    [
        ("FO", "no column O"),
        ("UA", "no row U"),
        ("CKKD", "does not mirror"),
        ("OPPC", "known error OP-PC"),
    ],
)
def test_impossible_letters_are_named(
    letters: str, words: str, stamps: Stamps, vocabulary: Vocabulary
) -> None:
    read = judge_letters([letters], ONE_PENNY, stamps, vocabulary.lettering_errors)
    assert any(words in each.text for each in read.problems)
    sources = stamps.sources.keys() | {"common practice"}
    assert all(each.source in sources for each in read.problems)


def test_neighbours_stop_at_the_edge(stamps: Stamps, vocabulary: Vocabulary) -> None:
    read = judge_letters(["AA", "TL"], ONE_PENNY, stamps, vocabulary.lettering_errors)
    assert read.positions[0].beside == {"right": "AB", "below": "BA"}
    assert read.positions[1].beside == {"left": "TK", "above": "SL"}


def test_the_map_marks_the_stamps_and_their_neighbours() -> None:
    lines = drawn(sheet_map(["KC", "KD"], ONE_PENNY))
    assert len(lines) == 21 and lines[0].split() == list("ABCDEFGHIJKL")
    assert lines[11].split() == ["K", "·", "○", "■", "■", "○", *"·······"]
    assert lines[10].split()[3:5] == ["○", "○"]


@pytest.mark.parametrize(
    ("issue", "number", "verdict"),
    [
        ("penny_red_four_letters", "148", "plate 148 was used for this issue"),
        ("penny_red_four_letters", "77", "plate 77: never put to press"),
        ("penny_red_four_letters", "226", "plate 226: made, not put to press"),
        ("halfpenny_1870", "7", "plate 7: never completed"),
        ("penny_black_1840", "12", "no plate 12 is recorded for this issue"),
        ("e2_wilding_tudor", "3", "the plates of this issue are not recorded"),
    ],
)
def test_which_plates_there_were(issue: str, number: str, verdict: str, stamps: Stamps) -> None:
    assert plate_judgement(stamps.issues[issue], number, stamps).verdict == verdict


def test_a_plate_read_on_one_side_is_cautioned(stamps: Stamps) -> None:
    issue = stamps.issues["halfpenny_1870"]
    one, both = (plate_judgement(issue, "9", stamps, both_sides=sides) for sides in (False, True))
    assert any("6" in each and "19" in each for each in one.cautions)
    assert not both.cautions and not both.asks
    assert any(each.code == "faked_plate_9_halfpenny" for each in both.reasons)


def penny(number: str, letters: str, issue: str = "penny_black_1840", plate: str = "9") -> Item:
    return Item(number, issue=issue, letters=tuple(letters.split()), plate=plate)


def test_finds_adjoining_stamps_and_matching_pairs(stamps: Stamps) -> None:
    stock = [
        penny("A1", "KC"),
        penny("A2", "KD"),
        penny("A3", "KD", plate="8"),
        penny("A4", "KD", plate=""),
        penny("A5", "LD"),
        penny("A6", "KC", "penny_red_1841_black_plates"),
        penny("A7", "KC", "penny_red_sc14_die2_alph2"),  # plate 9 of die II is another plate
        Item("A8", issue="penny_black_1840", letters=("JC",), plate="9", status="sold"),
        penny("A9", "MC LC"),
    ]
    found = finds(stock[0], stock, stamps)
    assert [(each.number, each.kind) for each in found] == [
        ("A2", "adjoins"), ("A9", "adjoins"), ("A6", "matches"),
    ]  # fmt: skip
    assert finds(penny("A1", "KC", plate=""), stock, stamps) == ()


def test_the_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["letters", "KC", "KD", "--sheet", "20x12", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {
        "positions": [
            {"letters": "KC", "row": 11, "column": 3, "number": 123},
            {"letters": "KD", "row": 11, "column": 4, "number": 124},
        ],
        "adjoin": True,
        "shape": "horizontal pair",
        "problems": [],
    }
    assert main(["letters", "123"]) == 0
    assert "KC: row 11" in capsys.readouterr().out
    assert main(["letters", "ck-kc", "--map"]) == 0
    assert "row 11, column 3, number 123 of 240" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words", [["letters", "K"], ["letters", "KC", "--sheet", "99x12"], ["letters", "241"]]
)
def test_bad_words_are_answered_with_one_sentence(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == 2
    assert capsys.readouterr().err.count("\n") == 1


@given(st.text(max_size=12))
def test_no_text_breaks_the_readers_of_letters_and_sheets(text: str) -> None:
    for read in (read_letters, read_format):
        try:
            made = read(text)
        except InputError:
            continue
        assert counts(made)[0] if isinstance(made, str) else made.stamps  # type: ignore[attr-defined]
