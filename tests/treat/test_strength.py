"""Strengths one into the other, against published tables and a chemistry package."""

import re

import molmass
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.reference.treatments import Treatments
from counter.values.errors import InputError
from counter.values.strength import Strength
from counter.values.strength_words import read_label


def first(text: str, treatments: Treatments) -> Strength:
    return read_label(text).readings(treatments.scale)[0].strength


def test_molar_masses_against_the_standard_atomic_weights(treatments: Treatments) -> None:
    # molmass: IUPAC standard atomic weights
    peroxide = molmass.Formula("H2O2").mass
    assert treatments.figures["molar_mass"].value == pytest.approx(peroxide, abs=0.001)
    # PbS + 4 H2O2 -> PbSO4 + 4 H2O (bpg_1985): millilitres of 3 % w/v for 1 mg of PbS
    need = 4 * peroxide / molmass.Formula("PbS").mass / 0.03 / 1000
    assert treatments.figures["sulphide_need"].value == pytest.approx(need, rel=0.005)


def test_a_volume_by_its_definition(treatments: Treatments) -> None:
    # 2 H2O2 -> 2 H2O + O2; a mole of gas is 22.414 L at 0 °C and 1 atmosphere (bp_6, vol_note_2010)
    factor = 2 * molmass.Formula("H2O2").mass / 22.414 / 10
    assert treatments.scale.wv_per_volume == pytest.approx(factor, rel=1e-4)


def published(name: str, key: str) -> list[tuple[str, dict[str, float]]]:
    """The rows of one conversion table that print both a volume and `key`."""
    from counter.reference.treatments_reader import read_treatments

    rows = read_treatments().conversions[name].rows
    return [(name, row) for row in rows if "volume" in row and key in row]


# Each table's source is in the reference: bp_6, vol_note_2010, and our own worked table.
@pytest.mark.parametrize(
    ("table", "row"),
    [
        *published("table_pharmacopoeia", "percent_wv"),
        *published("table_tutor", "percent_wv"),
        *published("table_exact", "percent_wv"),
        *published("band_edges_in_volume", "percent_wv"),
    ],
)
def test_volume_to_weight_in_volume(table: str, row: dict[str, float], treatments: Treatments) -> None:
    made = first(f"{row['volume']} vol", treatments)
    # the pharmacopoeia rounds 20 volume to "6 per cent"
    assert made.percent_wv == pytest.approx(row["percent_wv"], rel=0.012), table


@pytest.mark.parametrize(
    ("table", "row"),
    [*published("table_exact", "percent_ww"), *published("band_edges_in_volume", "percent_ww")],
)
def test_volume_to_weight_in_weight(table: str, row: dict[str, float], treatments: Treatments) -> None:
    assert first(f"{row['volume']} vol", treatments).percent_ww == pytest.approx(
        row["percent_ww"], rel=0.004
    ), table


# vol_table prints 11.2 volumes for one mol/L; vol_note_2010 30 volume = 2.678 mol/L.
@pytest.mark.parametrize(
    ("volume", "molar"),
    [(11.2, 1.0), (22.4, 2.0), (28.0, 2.5), (100.8, 9.0), (112.0, 10.0), (30, 2.678)],
)
def test_volume_to_molarity(volume: float, molar: float, treatments: Treatments) -> None:
    assert first(f"{volume} vol", treatments).mol_per_litre == pytest.approx(molar, rel=0.002)
    assert first(f"{molar} mol/L", treatments).volume == pytest.approx(volume, rel=0.002)


# cleapss57 pairs these at room temperature (24 L/mol): our second reading of "volume".
@pytest.mark.parametrize(("volume", "wv", "molar"), [(18, 5.0, 1.5), (28, 8.0, 2.3), (100, 28.3, 8.3)])
def test_the_school_table_is_the_room_temperature_reading(
    volume: float, wv: float, molar: float, treatments: Treatments
) -> None:
    cold, warm = read_label(f"{volume} vol").readings(treatments.scale)
    assert warm.way == "volume at room temperature"
    assert warm.strength.percent_wv == pytest.approx(wv, rel=0.025)
    assert warm.strength.mol_per_litre == pytest.approx(molar, rel=0.025)
    assert cold.strength.percent_wv > warm.strength.percent_wv


# density_points_enc: a second published series (enc_h2o2), at 15 and 20 °C.
@pytest.mark.parametrize(("ww", "density"), [(3, 1.0095), (27, 1.1), (35, 1.13), (50, 1.2), (70, 1.29)])
def test_densities_agree_with_a_second_series(
    ww: float, density: float, treatments: Treatments
) -> None:
    made = treatments.scale.from_ww(ww)
    assert made.percent_wv / made.percent_ww == pytest.approx(density, rel=0.004)


@pytest.mark.parametrize(
    ("text", "ways"),
    [
        ("3 %", {"w/v": 3.0, "w/w": 3.0283}),
        ("3 per cent", {"w/v": 3.0, "w/w": 3.0283}),
        ("3 % w/v", {"w/v": 3.0}),
        ("3%(w/v)", {"w/v": 3.0}),
        ("10 vol", {"volume at 0 °C": 3.0351, "volume at room temperature": 2.8346}),
        ("20 volume", {"volume at 0 °C": 6.0702, "volume at room temperature": 5.6692}),
        (
            "20-volume hydrogen peroxide",
            {"volume at 0 °C": 6.0702, "volume at room temperature": 5.6692},
        ),
        ("6% w/w", {"w/w": 6.1224}),
        ("0.9 mol/L", {"mol/L": 3.0613}),
        ("30 g/L", {"w/v": 3.0}),
        ("3,5 % w/v", {"w/v": 3.5}),
    ],
)
def test_labels_and_every_way_to_read_them(
    text: str, ways: dict[str, float], treatments: Treatments
) -> None:
    readings = read_label(text).readings(treatments.scale)
    assert {each.way: round(each.strength.percent_wv, 4) for each in readings} == pytest.approx(ways)
    strengths = [each.strength.percent_wv for each in readings]
    assert strengths == sorted(strengths, reverse=True)


@pytest.mark.parametrize("text", ["old bottle", "3 % opened last year", "unknown", "no label", "?"])
def test_an_old_or_unlabelled_bottle_is_unknown(text: str, treatments: Treatments) -> None:
    label = read_label(text)
    assert label.unknown and label.readings(treatments.scale) == ()


@pytest.mark.parametrize(
    "text", ["", "3", "banana", "3 % v/v", "-3 %", "3 %%", "3 % and a bit", "9e9 %", "% w/v", "3 ml"]
)
def test_nonsense_is_told_in_one_sentence(text: str) -> None:
    with pytest.raises(InputError, match="3 % w/v"):
        read_label(text)


@pytest.mark.parametrize("text", ["0 %", "400 %", "101 % w/w", "900 vol", "99 mol/L"])
def test_strengths_that_cannot_be(text: str, treatments: Treatments) -> None:
    with pytest.raises(InputError, match="3 % w/v"):
        read_label(text).readings(treatments.scale)


@given(st.floats(min_value=0.01, max_value=100, allow_nan=False))
def test_there_and_back(percent_ww: float) -> None:
    scale = _SCALE
    made = scale.from_ww(percent_ww)
    again = scale.from_wv(made.percent_wv)
    assert again.percent_ww == pytest.approx(percent_ww, rel=1e-9)
    assert scale.from_molar(made.mol_per_litre).percent_ww == pytest.approx(percent_ww, rel=1e-9)


@given(st.floats(min_value=0.01, max_value=99), st.floats(min_value=0.001, max_value=1))
def test_stronger_is_stronger_in_every_measure(percent: float, more: float) -> None:
    weak, strong = _SCALE.from_ww(percent), _SCALE.from_ww(percent + more)
    for measure in ("percent_wv", "percent_ww", "mol_per_litre", "volume"):
        assert getattr(weak, measure) < getattr(strong, measure)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    try:
        label = read_label(text)
    except InputError as bad:
        assert str(bad).endswith(".")
    else:
        assert label.unknown or re.search(r"\d", text)


def _scale() -> object:
    from counter.reference.treatments_reader import read_treatments

    return read_treatments().scale


_SCALE = _scale()
