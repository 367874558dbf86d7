"""The treatment reference is whole, and a broken record is named by file, record and field."""

import shutil
from pathlib import Path

import pytest

from counter.reference import loader
from counter.reference.loader import DataFault
from counter.reference.stamps import Stamps
from counter.reference.treatments import Treatments
from counter.reference.treatments_reader import read_treatments


def test_every_researched_record_is_there(treatments: Treatments) -> None:
    # the counts of the researched facts this data was carried over from
    counts = {
        "sources": 100,
        "reasons": 54,
        "rules": 14,
        "treatments": 33,
        "classes": 50,
        "tolerances": 500,
        "dimensions": 33,
    }
    assert {name: len(getattr(treatments, name)) for name in counts} == counts
    chemistry = ("figures", "conversions", "densities", "dilutions", "statements")
    assert sum(len(getattr(treatments, name)) for name in chemistry) == 55
    person = ("bands", "steps", "precautions", "hazards")
    assert sum(len(getattr(treatments, name)) for name in person) == 58


def test_disputed_rows_show_both_sides_with_sources(treatments: Treatments) -> None:
    disputed = {key: row for key, row in treatments.tolerances.items() if row.dissent}
    assert len(disputed) == 9
    for row in disputed.values():
        assert row.verdict == "with care"
        assert row.dissent is not None and row.dissent.verdict == "never"
        assert row.dissent.source in treatments.sources


def test_every_issue_has_a_print_class_and_no_unknown_issue_is_named(
    treatments: Treatments, stamps: Stamps
) -> None:
    named = {issue for row in treatments.issue_classes for issue in row.issues if row.classes}
    assert named == set(stamps.issues)


def test_ink_cells_named_as_the_other_side_are_in_the_ink_table(
    treatments: Treatments, stamps: Stamps
) -> None:
    for name in treatments.limits.ink_cells_as_dissent:
        ink, column = name.split(".")
        assert getattr(stamps.inks[ink], column).verdict


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("tolerance_mark", 'source = "igi_site"', 'source = "nowhere"', "nowhere"),
        ("tolerance_mark", 'reason_code = "IRON_GALL"', 'reason_code = "ODD"', "ODD"),
        ("tolerance_mark", 'verdict = "never"', 'verdict = "perhaps"', "verdict"),
        ("tolerance_condition", 'class = "unknown"', 'class = "nothing"', "missing|nothing"),
        ("questions", 'classes = ["on_piece"]', 'classes = ["on_pieces"]', "on_pieces"),
        ("issues", 'papers = ["silk_threads"]', 'papers = ["silk"]', "silk"),
        ("treatments_water", "at_fair = false", "", "at_fair"),
        ("hazards", 'id = "h2o2_ppe"', 'id = "h2o2_gone"', "h2o2_ppe"),
        ("fluids", 'treatment = "acetone"', 'treatment = "acetate"', "acetate"),
        ("limits", '"uv_longwave",', "", "uv_longwave"),
    ],
)
def test_a_broken_record_is_named(tmp_path: Path, file: str, old: str, new: str, said: str) -> None:
    folder = tmp_path / "treatments"
    shutil.copytree(loader.DATA / "treatments", folder)
    path = folder / f"{file}.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(DataFault, match=said):
        read_treatments(tmp_path)
