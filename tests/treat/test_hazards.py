"""Hazard statements by strength, near-miss names, and what must never meet."""

import pytest

from counter.judge.treat.fluids import name_fluid, name_half_typed
from counter.judge.treat.hazards import Hazards, peroxide_hazards, treatment_hazards
from counter.reference.treatments import Treatments
from counter.values.strength_words import read_label


def of(text: str, treatments: Treatments) -> Hazards:
    return peroxide_hazards(read_label(text).readings(treatments.scale), treatments)


# clp_annex6: harmonised limits for hydrogen peroxide solution, index 008-003-00-9, % w/w.
@pytest.mark.parametrize(
    ("ww", "codes"),
    [
        (3, ()),
        (4.99, ()),
        (5, ("H319",)),
        (7.99, ("H319",)),
        (8, ("H318",)),
        (34.9, ("H318",)),
        (35, ("H315", "H318", "H335")),
        (50, ("H272", "H314", "H335")),
        (70, ("H271", "H314", "H335")),
        (100, ("H271", "H314", "H335")),
    ],
)
def test_harmonised_bands(ww: float, codes: tuple[str, ...], treatments: Treatments) -> None:
    hazards = of(f"{ww} % w/w", treatments)
    assert hazards.h_codes == codes
    assert len(hazards.h_words) == len(codes)


# The grades as sold (bp_6 with usp_topical and clp_annex6).
@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("3 %", ()),
        ("10 vol", ()),
        ("6 %", ("H319",)),
        ("20 vol", ("H319",)),
        ("9 %", ("H318",)),
        ("30 vol", ("H318",)),
        ("12 %", ("H318",)),
        ("40 volume", ("H318",)),
    ],
)
def test_bottle_grades(text: str, codes: tuple[str, ...], treatments: Treatments) -> None:
    assert of(text, treatments).h_codes == codes


def test_the_stronger_reading_decides_and_the_doubt_is_told(treatments: Treatments) -> None:
    # 28 volume: 8.26 % w/w at 0 °C, but cleapss57 pairs it with 8 % w/v, 7.8 % w/w
    hazards = of("28 vol", treatments)
    assert hazards.h_codes == ("H318",)
    assert any(each.code == "label_doubt" for each in hazards.warnings)


def test_an_unknown_strength_is_handled_as_strong(treatments: Treatments) -> None:
    hazards = of("old bottle", treatments)
    assert hazards.h_codes == ("H318",)
    assert any(each.code == "CONC_UNKNOWN" for each in hazards.warnings)


@pytest.mark.parametrize("text", ["5 % w/w", "20 vol"])
def test_p_statements_for_eyes(text: str, treatments: Treatments) -> None:
    # clp_annex4: rinse, lenses out, go on rinsing
    assert "P305+P351+P338" in of(text, treatments).p_codes


# dereg_2015: regulated only in a concentration HIGHER than 12 % w/w.
@pytest.mark.parametrize(
    ("text", "regulated"), [("12 % w/w", False), ("12.1 % w/w", True), ("35 % w/w", True)]
)
def test_precursor_limit(text: str, regulated: bool, treatments: Treatments) -> None:
    assert bool(of(text, treatments).law) is regulated


# uk_precursor_40vol: 40 volume developer is under the limit, but inside the eye-damage band.
def test_forty_volume_is_under_the_limit(treatments: Treatments) -> None:
    hazards = of("40 vol", treatments)
    assert not hazards.law and hazards.h_codes == ("H318",)


def test_further_statements_stand_apart_from_the_harmonised_ones(treatments: Treatments) -> None:
    assert [each.code for each in of("10 % w/w", treatments).further] == ["H272"]
    assert {each.code for each in of("36 % w/w", treatments).further} == {"H272", "H302", "H332"}


def test_spirit_statements_leave_out_those_of_benzene(treatments: Treatments) -> None:
    spirit = treatments.treatments["watermark_petroleum_spirit"]
    hazards = treatment_hazards(spirit, (), treatments)
    assert {"H225", "H304", "H336", "H315", "H411"} == set(hazards.h_codes)
    assert any("peroxide" in each.text for each in hazards.never_mix)


@pytest.mark.parametrize(
    ("name", "fluid", "barred"),
    [
        ("benzine", "petroleum_spirit", False),
        ("Petroleum Spirit", "petroleum_spirit", False),
        ("lighter fluid", "lighter_fluid", False),
        ("benzene", "benzene", True),
        ("benzol", "benzene", True),
        ("label says CAS 71-43-2", "benzene", True),
        ("benzen", "benzene", True),  # as near to one as to the other: the poison counts
        ("benzin", "benzene", True),
        ("bleech", "bleach", True),
        ("acetone", "acetone", True),
        ("petrol", "petrol", True),
        ("carbon tetrachlorid", "carbon_tetrachloride", True),
    ],
)
def test_names_on_bottles(name: str, fluid: str, barred: bool, treatments: Treatments) -> None:
    match = name_fluid(name, treatments)
    assert match is not None
    assert (match.fluid.id, match.fluid.barred) == (fluid, barred)


@pytest.mark.parametrize(
    ("typed", "fluid"),
    [
        ("perox", ""),  # peroxide to come
        ("peroxide", "hydrogen_peroxide"),
        ("benz", "benzene"),
        ("benzin", "benzene"),  # benzine to come, but a letter from the poison: told at once
        ("petro", "petrol"),
        ("ammoni", "ammonia"),
        ("perixode", "hydrogen_peroxide"),  # begins no name: a slip
    ],
)
def test_a_name_half_typed(typed: str, fluid: str, treatments: Treatments) -> None:
    match = name_half_typed(typed, treatments)
    assert (match.fluid.id if match else "") == fluid


def test_a_name_nobody_knows(treatments: Treatments) -> None:
    assert name_fluid("unicorn tears", treatments) is None


@pytest.mark.parametrize("ww", ["8", "20", "34", "35", "45", "50", "60", "70", "90"])
def test_no_strong_grade_is_without_precautions(ww: str, treatments: Treatments) -> None:
    assert "P280" in of(f"{ww} % w/w", treatments).p_codes
