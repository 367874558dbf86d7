"""The opening screen's strip: what an issue's ink stands by itself."""

import pytest

from counter.judge.observation import Observation, Reading
from counter.judge.treat.strip import StripCell, tolerance_strip
from counter.reference.stamps import Stamps
from counter.reference.treatments import Treatments


def cells(issue: str, stamps: Stamps, treatments: Treatments, **seen: str) -> dict[str, StripCell]:
    looked = tuple(Observation(kind, value, value) for kind, value in seen.items())
    reading = Reading("", looked) if seen else None
    return {each.name: each for each in tolerance_strip(issue, stamps, treatments, reading)}


LINE_ENGRAVED = [
    "penny_black_1840",
    "penny_red_imperf_alphabet_one",
    "penny_red_lc14_die2_alph3_blued",
    "penny_red_four_letters",
    "halfpenny_1870",
    "two_pence_1840_no_lines",
    "two_pence_1841_white_lines",
    "two_pence_four_letters_thick",
]


@pytest.mark.parametrize("issue", LINE_ENGRAVED)
def test_line_engraved_peroxide_is_with_care_and_disputed(
    issue: str, stamps: Stamps, treatments: Treatments
) -> None:
    cell = cells(issue, stamps, treatments)["peroxide"]
    assert (cell.verdict, cell.disputed) == ("with care", True)
    assert {"for", "against"} <= {reason.speaks for reason in cell.reasons}
    assert all(reason.source for reason in cell.reasons)


# Fugitive and doubly fugitive inks: enc_lg, gbos and gbps_board in the treatment sources.
@pytest.mark.parametrize(
    "issue",
    ["qv_9d_1883", "qv_1s_1884", "qv_2d_1884", "qv_2s6d_1883", "qv_6d_1856", "qv_1s_1867_spray"],
)
def test_fugitive_greens_and_lilacs_never_meet_water_or_peroxide(
    issue: str, stamps: Stamps, treatments: Treatments
) -> None:
    strip = cells(issue, stamps, treatments)
    assert strip["water"].verdict == strip["peroxide"].verdict == "never"
    assert not strip["water"].disputed


def test_the_ink_table_is_heard_where_it_is_stricter(stamps: Stamps, treatments: Treatments) -> None:
    # The class of the 1d lilac lets it float with care; the ink table says never (mag_1dlilac).
    assert treatments.tolerances["penny_lilac_1881", "soak_float"].verdict == "with care"
    cell = cells("qv_1d_lilac_die2", stamps, treatments)["water"]
    assert cell.verdict == "never"
    assert any(reason.code == "ink_water" for reason in cell.reasons)


def test_what_is_not_seen_is_warned_of_and_not_counted(stamps: Stamps, treatments: Treatments) -> None:
    issue = "penny_red_imperf_alphabet_one"
    assert "on blued paper: never" in cells(issue, stamps, treatments)["peroxide"].unless
    blued = cells(issue, stamps, treatments, paper="blued")["peroxide"]
    assert (blued.verdict, blued.disputed, blued.unless) == ("never", False, ())


@pytest.mark.parametrize(
    ("kind", "value"),
    [("gum", "unused_og"), ("fault", "thin"), ("attachment", "cover"), ("writing", "iron_gall")],
)
def test_what_is_seen_makes_it_stricter(
    kind: str, value: str, stamps: Stamps, treatments: Treatments
) -> None:
    assert cells("penny_black_1840", stamps, treatments, **{kind: value})["peroxide"].verdict == "never"


def test_an_issue_nobody_knows_is_unknown(stamps: Stamps, treatments: Treatments) -> None:
    assert {each.verdict for each in cells("no such issue", stamps, treatments).values()} == {"unknown"}
