"""The opening screen's strip: what the line's stamp bears, never milder than the treatment list."""

import atexit
from datetime import date, datetime
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter.desk.desk import Desk
from counter.desk.identify.line_query import Asked
from counter.desk.opening import open_desk
from counter.desk.treatments.case import treatable_of_text, verdict_of
from counter.judge.observation import Observation, Reading
from counter.judge.treat.observed import subject_of_reading
from counter.judge.treat.plan import Plan
from counter.judge.treat.strip import StripCell, tolerance_strip
from counter.judge.treat.subject import Subject
from counter.judge.treat.verdict_order import strictness
from counter.reference.library import Library
from counter.reference.stamps import Stamps
from counter.reference.treatments import Treatments

LIBRARY = Library()
TODAY = date(2026, 5, 2)
#: Every question answered as well as can be for a used stamp in the hand.
ANSWERED = {
    "gum": ("used",),
    "attachment": ("loose",),
    "paper": ("white",),
    "cancel": ("black",),
    "writing": ("none",),
    "repair": ("none",),
    "certificate": ("no",),
    "sulphided_lead_ink": ("yes",),
}


def cells(
    issue: str, stamps: Stamps, treatments: Treatments, *, answered: bool = False, **seen: str
) -> dict[str, StripCell]:
    looked = tuple(Observation(kind, value, value) for kind, value in seen.items())
    subject = subject_of_reading(Reading("", looked), treatments)
    if answered:
        subject = Subject((), "", ANSWERED | dict(subject.answers), subject.classes)
    made = tolerance_strip(subject, issue, stamps, treatments, today=TODAY)
    return {each.name: each for each in made}


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
def test_line_engraved_peroxide_could_be_with_care_and_is_disputed(
    issue: str, stamps: Stamps, treatments: Treatments
) -> None:
    cell = cells(issue, stamps, treatments, answered=True)["peroxide"]
    assert (cell.verdict, cell.could_be, cell.disputed) == ("never", "with care", True)
    assert cell.asks == ("strength",)
    assert {"for", "against"} <= {reason.speaks for reason in cell.reasons}
    assert all(reason.source for reason in cell.reasons)


def test_nothing_unsaid_is_taken_for_permission(stamps: Stamps, treatments: Treatments) -> None:
    # the print of 1840 stands water (cmh_2012), but gum, cover and pen are not said
    cell = cells("penny_black_1840", stamps, treatments)["float"]
    assert (cell.verdict, cell.could_be, cell.ink) == ("never", "tolerates", "tolerates")
    assert {"gum", "attachment", "writing"} <= set(cell.asks)
    answered = cells("penny_black_1840", stamps, treatments, answered=True)["float"]
    assert answered.verdict == answered.could_be and not answered.asks


# Fugitive and doubly fugitive inks: enc_lg, gbos and gbps_board in the treatment sources.
@pytest.mark.parametrize(
    "issue",
    ["qv_9d_1883", "qv_1s_1884", "qv_2d_1884", "qv_2s6d_1883", "qv_6d_1856", "qv_1s_1867_spray"],
)
def test_fugitive_greens_and_lilacs_never_meet_water_or_peroxide(
    issue: str, stamps: Stamps, treatments: Treatments
) -> None:
    strip = cells(issue, stamps, treatments, answered=True)
    for name in ("float", "soak", "peroxide"):
        assert strip[name].verdict == strip[name].could_be == "never"
    assert not strip["soak"].disputed


def test_a_short_float_and_a_full_soak_are_told_apart(stamps: Stamps, treatments: Treatments) -> None:
    # mag_1dlilac: a full soak is never right, a brief float is a gamble; the class row lets it float
    # with care. The stricter stands, and the float is shown as disputed.
    assert treatments.tolerances["penny_lilac_1881", "soak_float"].verdict == "with care"
    strip = cells("qv_1d_lilac_die2", stamps, treatments, answered=True)
    assert (strip["float"].verdict, strip["float"].disputed) == ("never", True)
    assert (strip["soak"].verdict, strip["soak"].disputed) == ("never", False)
    assert any(reason.code == "ink_water" for reason in strip["float"].reasons)


def test_what_the_issue_is_also_found_with_is_warned_of(stamps: Stamps, treatments: Treatments) -> None:
    issue = "penny_red_imperf_alphabet_one"
    assert "on blued paper: never" in cells(issue, stamps, treatments)["peroxide"].unless
    blued = cells(issue, stamps, treatments, paper="blued")["peroxide"]
    assert (blued.verdict, blued.could_be, blued.unless) == ("never", "never", ())


@pytest.mark.parametrize(
    ("kind", "value"),
    [("gum", "unused_og"), ("fault", "thin"), ("attachment", "cover"), ("writing", "iron_gall")],
)
def test_what_is_seen_makes_it_stricter(
    kind: str, value: str, stamps: Stamps, treatments: Treatments
) -> None:
    assert (
        cells("penny_black_1840", stamps, treatments, **{kind: value})["peroxide"].could_be == "never"
    )


def test_light_and_steam_stand_where_the_ink_is_known(stamps: Stamps, treatments: Treatments) -> None:
    strip = cells("qv_1d_lilac_die2", stamps, treatments)
    assert strip["light"].verdict == "never" and strip["steam"].verdict == "never"
    assert "light" not in cells("no such issue", stamps, treatments)


def test_an_issue_nobody_knows_is_not_permitted(stamps: Stamps, treatments: Treatments) -> None:
    for cell in cells("no such issue", stamps, treatments, answered=True).values():
        assert cell.verdict in ("unknown", "never") and cell.could_be in ("unknown", "never")


@cache
def demo_desk() -> Desk:
    now = datetime.fromisoformat("2026-05-02T10:00:00+01:00")
    desk = open_desk(None, demo=True, library=LIBRARY, clock=lambda: now)
    atexit.register(desk.close)
    return desk


class TestNeverMilderThanTheTreatmentList:
    """For the same line, over the whole reference and what may stand beside a stamp."""

    def hold(self, line: str) -> None:
        asked = Asked(demo_desk(), line)
        listed = treatable_of_text(line, LIBRARY, demo_desk().item)
        for found in asked.candidates[:3]:
            for cell in asked.strip(found.issue_id):
                if cell.treatment:
                    full = verdict_of(listed, Plan(cell.treatment), LIBRARY, demo_desk().today())
                    assert strictness(cell.verdict) >= strictness(full.verdict), (line, cell.name)
                    if found.issue_id in listed.subject.issues:  # else it is one more to tell apart
                        assert strictness(cell.could_be) >= strictness(full.could_be), (line, cell.name)

    @pytest.mark.parametrize("issue", sorted(LIBRARY.stamps.issues))
    def test_of_every_issue(self, issue: str) -> None:
        stamp = LIBRARY.stamps.issues[issue].characters.stamps[0]
        self.hold(f"{stamp.value} {stamp.colours[0] if stamp.colours else ''} used")

    @settings(max_examples=60)
    @given(
        st.sampled_from(
            ["1d black", "1d red imperf", "2d blue", "1d lilac", "6d", "4d green", "stamp"]
        ),
        st.lists(
            st.sampled_from(
                (
                    *("used", "og", "on cover", "loose", "thin", "blued", "no repairs", "pen"),
                    *("sulphided", "no writing", "no certificate", "white paper", "maybe thin"),
                    *("red mx", "brown mx"),
                )
            ),
            max_size=6,
        ),
    )
    def test_of_any_words_beside(self, stamp: str, words: list[str]) -> None:
        self.hold(" ".join([stamp, *words]))
