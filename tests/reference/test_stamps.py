"""The stamp records: every one carried over, every reference sound, faults named, no stale form."""

import shutil
from collections import Counter
from pathlib import Path

import pytest

from counter.reference.library import Library
from counter.reference.loader import DATA, DataFault
from counter.reference.stamps import Stamps
from counter.reference.stamps_plate import expand, numbers_of
from counter.reference.stamps_reader import read_stamps


@pytest.fixture(scope="module")
def stamps() -> Stamps:
    return Library().stamps


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    shutil.copytree(DATA / "stamps", tmp_path / "stamps")
    return tmp_path


def change(copy: Path, file: str, old: str, new: str) -> None:
    path = copy / "stamps" / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_every_record_is_there(stamps: Stamps) -> None:
    """The counts of the researched facts: 38 line-engraved issues, 153 others, and the rest."""
    engraved = [i for i in stamps.issues.values() if i.characters.processes == ("line_engraved",)]
    assert (len(engraved), len(stamps.issues)) == (38, 38 + 153 + 145)
    assert sum(map(len, stamps.first_days.values())) == 329 + 98
    assert (len(stamps.other_kinds), len(stamps.stationery), len(stamps.rules)) == (18, 21, 11)
    assert len(stamps.plates) == 228
    assert len(stamps.watermark_rows) == 5 + 28
    assert len(stamps.alphabets) == 4
    assert len(stamps.lettering) == 12
    assert len(stamps.sheets) == 3
    assert len(stamps.lookalikes) == 20 + 4
    assert len(stamps.varieties) == 13
    assert len(stamps.separations) == 15
    assert len(stamps.denominations) == 13
    assert len(stamps.inks) == 31
    assert len(stamps.cross_checks) == 10
    assert len(stamps.commemoratives) == 145
    assert len(stamps.sources) == 32 + 59 + 101
    assert len(stamps.follow_up) == 4


def test_plates_by_series(stamps: Stamps) -> None:
    """160 of the four-letter 1d (69 to 228), 12 of the 1d black, 22 of the ½d (1 to 22)."""
    series = Counter(plate.series for plate in stamps.plates)
    assert series["1d four corner letters"] == 160
    assert series["1d black"] == 12
    assert series["½d 1870"] == 22
    letters = [p for p in stamps.plates if p.series == "1d four corner letters"]
    assert {int(plate.plate) for plate in letters} == set(range(69, 229))


def test_used_plates_of_the_four_letter_penny(stamps: Stamps) -> None:
    """151 numbers were used in all (a published plating article's total)."""
    assert len(stamps.plate_numbers["penny_red_four_letters"]) == 151
    used = {
        plate.plate
        for plate in stamps.plates
        if plate.series == "1d four corner letters" and plate.used
    }
    assert used == stamps.plate_numbers["penny_red_four_letters"]
    assert stamps.unused_plates["penny_red_four_letters"] >= {"69", "70", "75", "77", "126", "128"}


def test_both_descriptions_of_a_watermark_are_kept(stamps: Stamps) -> None:
    rows = Counter(mark.id for mark in stamps.watermark_rows)
    assert rows["small_crown"] == rows["no_watermark"] == 2
    assert stamps.watermarks["large_crown"].stands_for == ("large_crown_1", "large_crown_2")


def test_disagreeing_dates_are_both_kept(stamps: Stamps) -> None:
    issue = stamps.issues["qv_10s_1883_anchor"]
    assert issue.date_first_issued == "1883-02"
    assert issue.date_first_issued_other[0].date == "1882-02"
    assert issue.characters.issued.earliest == "1882-02-01"
    assert issue.characters.issued.memory  # the source of 1883-02 is recollection


def test_a_memory_date_says_so(stamps: Stamps) -> None:
    assert stamps.issues["penny_red_lc14_die2_alph3_white"].characters.issued.memory
    assert not stamps.issues["penny_black_1840"].characters.issued.memory


def test_commemoratives_are_looked_up(stamps: Stamps) -> None:
    assert stamps.commemoratives_of(year=1929)[0].date == "1929-05-10"
    found = stamps.commemoratives_of(subject="silver jubilee", value="2½d")
    assert [each.year for each in found] == [1935]
    assert stamps.commemoratives_of(year=1923) == ()


@pytest.mark.parametrize(
    ("words", "numbers"),
    [("R1-R3", ("R1", "R2", "R3")), ("9-11", ("9", "10", "11")), ("1a", ("1a",)), ("77", ("77",))],
)
def test_ranges_are_written_out(words: str, numbers: tuple[str, ...]) -> None:
    assert numbers_of(words) == numbers
    assert expand([words, "5"]) == (*numbers, "5")


@pytest.mark.parametrize(
    ("file", "old", "new", "named"),
    [
        (
            "issues_1d_black_1840.toml",
            'watermark = "small_crown"',
            'watermark = "tiny_crown"',
            "watermark",
        ),
        ("issues_1d_black_1840.toml", 'ink = "le_1840_black"', 'ink = "le_1840_blak"', "ink"),
        (
            "issues_1d_black_1840.toml",
            'issue = "vr_official_1840"',
            'issue = "vr"',
            "confused_with.issue",
        ),
        (
            "issues_1d_black_1840.toml",
            'lookalike = "royal_reprint_plate_66"',
            'lookalike = "reprint"',
            "confused_with.lookalike",
        ),
        ("issues_1d_black_1840.toml", 'source = "imperf_display"', 'source = "nowhere"', "source"),
        ("issues_1d_black_1840.toml", '"1b", "2-11"]', '"1b", "2-12R"]', "characters.plates"),
        (
            "lookalikes.toml",
            'looks_like = ["penny_black_1840"]',
            'looks_like = ["penny"]',
            "looks_like",
        ),
        ("watermarks_other.toml", 'stands_for = ["half_penny"]', 'stands_for = ["h"]', "stands_for"),
        ("seen_as.toml", 'seen = "large_crown_1"', 'seen = "big_crown"', "seen"),
    ],
)
def test_a_broken_reference_is_named(copy: Path, file: str, old: str, new: str, named: str) -> None:
    change(copy, file, old, new)
    with pytest.raises(DataFault) as fault:
        read_stamps(copy)
    assert file.removesuffix(".toml") in str(fault.value)
    assert named in str(fault.value)


def test_record_and_field_are_named(copy: Path) -> None:
    change(copy, "issues_1d_black_1840.toml", "sheet_rows = 20", 'sheet_rows = "20"')
    with pytest.raises(DataFault, match=r"issues_1d_black_1840.*penny_black_1840.*sheet_rows"):
        read_stamps(copy)


def test_an_id_used_twice_is_named(copy: Path) -> None:
    change(copy, "issues_1d_black_1840.toml", 'id = "vr_official_1840"', 'id = "halfpenny_1870"')
    with pytest.raises(DataFault, match="halfpenny_1870"):
        read_stamps(copy)


def test_the_compiled_form_is_never_stale(copy: Path) -> None:
    assert read_stamps(copy).issues["penny_black_1840"].name == "1d black, 1840"
    assert read_stamps(copy).issues["penny_black_1840"].name == "1d black, 1840"
    change(copy, "issues_1d_black_1840.toml", 'name = "1d black, 1840"', 'name = "1d black"')
    assert read_stamps(copy).issues["penny_black_1840"].name == "1d black"


def test_every_weight_gives_its_reason_and_source(stamps: Stamps) -> None:
    for file in ("error_model", "colour_model", "seen_as", "looks", "how_many"):
        for key, rows in stamps.tables[file].items():
            for row in rows:
                if key in ("hue", "shade_words", "own_names", "proper_names", "answer"):
                    continue
                assert row["why"] and row["source"], (file, key, row)
