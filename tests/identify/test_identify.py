"""Which issue it is: the named examples, ties, contradictions, and what always holds.

Where an example is a trade fact without a source it is common practice; the facts themselves are
the reference's, each with its source there.
"""

from math import isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter.judge.identify import (
    card_of,
    commemorative_lines,
    commemoratives_for,
    identify,
    next_looks,
)
from counter.judge.identify.evidence import Clue
from counter.judge.identify.likelihood import STATES
from counter.judge.identify.model import Model, model_of
from counter.judge.identify.shares import weigh
from counter.judge.observation import Observation, Reading
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.reference.stamps import Stamps

from .conftest import reading

NAMED = [
    (
        "1d blk imp KC sm crown",
        {
            "denomination": "1d",
            "colour": "black",
            "separation": "imperforate",
            "letters": "KC",
            "watermark": "small_crown",
        },
        "penny_black_1840",
    ),
    (
        "2d blu no lines",
        {"denomination": "2d", "colour": "blue", "lines": "none"},
        "two_pence_1840_no_lines",
    ),
    (
        "1d red pl 148",
        {"denomination": "1d", "colour": "red", "plate": "148"},
        "penny_red_four_letters",
    ),
    ("9d green 1884", {"denomination": "9d", "colour": "green", "date": "1884"}, "qv_9d_1883"),
    ("1d lilac 16 dots", {"denomination": "1d", "colour": "lilac", "dots": "16"}, "qv_1d_lilac_die2"),
    (
        "3d rose emblems",
        {"denomination": "3d", "colour": "rose", "watermark": "emblems"},
        "qv_3d_1865_emblems",
    ),
]


@pytest.mark.parametrize(("line", "said", "issue"), NAMED)
def test_the_named_examples(stamps: Stamps, line: str, said: dict[str, str], issue: str) -> None:
    assert identify(reading(**said), stamps).candidates[0].issue_id == issue


@pytest.mark.parametrize(("line", "said", "issue"), NAMED)
def test_the_named_examples_as_typed(
    library: Library, line: str, said: dict[str, str], issue: str
) -> None:
    found = identify(read_line(line, library.vocabulary), library.stamps)
    assert found.candidates[0].issue_id == issue


def test_nothing_seen_gives_no_candidates(stamps: Stamps) -> None:
    found = identify(Reading("", ()), stamps)
    assert found.candidates == () and found.together == ()
    assert isclose(found.none_of_these + found.others, 1)


def test_what_no_look_can_part_stays_together(stamps: Stamps) -> None:
    """The 1d red of the black plates is told from Alphabet I only by plating (imperf_display)."""
    said = reading(denomination="1d", colour="red-brown", separation="imperforate", corners="stars")
    together = identify(said, stamps).together
    assert {"penny_red_imperf_alphabet_one", "penny_red_imperf_alphabet_two"} <= set(together)


def test_an_unseen_watermark_returns_the_set(stamps: Stamps) -> None:
    said = reading(denomination="6d", colour="grey", corners="coloured_letters", plate="17")
    assert set(identify(said, stamps).together) == {"qv_6d_1874_grey_spray", "qv_6d_1881_grey_crown"}
    said = reading(denomination="6d", colour="grey", corners="coloured_letters", plate="18")
    assert identify(said, stamps).together == ("qv_6d_1881_grey_crown",)


def test_an_overprint_not_spoken_of_is_hardly_there(stamps: Stamps) -> None:
    """Common practice: an overprint is seen and said first."""
    said = {"denomination": "1d", "colour": "lilac", "watermark": "none"}
    plain, army = ("qv_1d_lilac_die1", "official_army")
    shares = {each.issue_id: each.share for each in identify(reading(**said), stamps).candidates}
    assert shares.get(army, 0.0) < shares[plain] / 5
    told = identify(reading(**said, overprint="ARMY OFFICIAL"), stamps)
    assert told.candidates[0].issue_id == army


def test_a_plate_worked_out_wrong_does_not_turn_a_black_grey(stamps: Stamps) -> None:
    """There is no plate 12 of the 1d black, but one of the 6d grey, whose plate is printed on it."""
    answer = identify(reading(denomination="1d", colour="black", plate="12"), stamps)
    assert answer.candidates[0].issue_id == "penny_black_1840"
    assert answer.candidates[0].share < 0.5


def test_a_foreign_stamp_is_none_of_these(stamps: Stamps) -> None:
    said = reading(denomination="1d", colour="green", watermark="emblems", phosphor="graphite")
    assert identify(said, stamps).none_of_these > 0.5


def test_a_commemorative_is_its_set(stamps: Stamps) -> None:
    said = reading(denomination="2½d", subject="silver jubilee")
    (first, *_) = identify(said, stamps).candidates
    assert first.issue_id == "set_1935_05_07" and first.share > 0.9
    assert first.name.startswith("2½d ultramarine, Silver Jubilee of George V")
    assert [each.date for each in commemoratives_for(said, stamps)] == ["1935-05-07"]


def test_a_set_is_found_by_year_and_denomination(stamps: Stamps) -> None:
    found = commemoratives_for(reading(date="1966", denomination="6d"), stamps)
    assert found and all(each.year == 1966 and "6d" in each.values for each in found)
    assert not commemoratives_for(reading(date="1966", denomination="6d", series="machin"), stamps)
    assert not commemoratives_for(reading(date="1884", denomination="6d"), stamps)


def test_a_denomination_that_a_set_lacks_is_said_and_hides_nothing(stamps: Stamps) -> None:
    said = reading(date="1937", denomination="1d", subject="Coronation")
    (line,) = commemorative_lines(commemoratives_for(said, stamps), "1d")
    assert line.text.startswith("13 May 1937") and "no 1d in it" in line.text


def test_the_stamp_of_a_set_that_is_an_issue_is_named(stamps: Stamps) -> None:
    said = reading(denomination="£1", subject="Universal Postal Union congress")
    found = identify(said, stamps)
    assert found.candidates[0].issue_id == "g5_puc_1l_1929"
    assert found.none_of_these < 0.5


@pytest.mark.parametrize("said", [{"stampless": "yes"}, {"date": "1832"}, {"date": "1840-04-30"}])
def test_a_letter_without_a_stamp_has_no_candidates(said: dict[str, str], stamps: Stamps) -> None:
    found = identify(reading(town="London", **said), stamps)
    assert (found.candidates, found.none_of_these) == ((), 1.0)
    assert not next_looks(reading(town="London", **said), stamps)


@pytest.mark.parametrize("iso", ["1840", "1840-05", "1840-05-01"])
def test_a_date_of_the_first_stamps_has_candidates(iso: str, stamps: Stamps) -> None:
    assert identify(reading(date=iso), stamps).candidates[0].issue_id == "penny_black_1840"


@pytest.mark.parametrize(
    ("series", "printer", "issue"),
    [
        ("seahorse", "De La Rue", "g5_seahorse_dlr_1915"),
        ("seahorse", "Bradbury Wilkinson", "g5_seahorse_bw_1918"),
        ("castle", "Waterlow", "e2_castle_waterlow_1955"),
    ],
)
def test_the_printer_tells_printings_apart(
    series: str, printer: str, issue: str, stamps: Stamps
) -> None:
    found = identify(reading(denomination="2s6d", series=series, printer=printer), stamps)
    assert found.together == (issue,)


def test_77_is_never_named_from_the_number_alone(stamps: Stamps) -> None:
    """The plate's record: no stamp is 77 without a recognised certificate (plate_77_article)."""
    found = identify(reading(denomination="1d", colour="red", plate="77", corners="letters"), stamps)
    assert found.candidates[0].issue_id == "penny_red_four_letters"
    assert any(each.code == "faked_plate_77" for each in found.candidates[0].explanations)
    assert any("never put to press" in each.text for each in found.remarks)
    assert "penny_red_plate_77" not in found.together


def test_a_plate_never_put_to_press_is_named(stamps: Stamps) -> None:
    said = reading(
        denomination="1d", colour="red", plate="70", corners="letters", separation="perforated"
    )
    found = identify(said, stamps)
    assert any("never put to press" in each.text for each in found.remarks)


@pytest.mark.parametrize(
    ("said", "issue", "explanation"),
    [
        (
            dict(
                denomination="1d",
                colour="red-brown",
                separation="imperforate",
                watermark="large_crown_1",
                alphabet="III",
                paper="blued",
            ),
            "penny_red_lc14_die2_alph3_blued",
            "trimmed_perforated_as_imperforate",
        ),
        (
            dict(
                denomination="1d",
                colour="black",
                separation="imperforate",
                corners="stars",
                watermark="large_crown_1|large_crown_2",
                die="II",
            ),
            "penny_black_1840",
            "royal_reprint_plate_66",
        ),
        (
            dict(denomination="8d", colour="brown", watermark="large_garter"),
            "qv_8d_1876",
            "sulphided_colour",
        ),
        (
            dict(
                denomination="2d", colour="blue", lines="none", alphabet="II", separation="perforated"
            ),
            "two_pence_sc16",
            "painted_out_white_lines",
        ),
    ],
)
def test_a_contradiction_is_explained(
    stamps: Stamps, said: dict[str, str], issue: str, explanation: str
) -> None:
    candidates = {each.issue_id: each for each in identify(reading(**said), stamps).candidates}
    assert candidates[issue].against
    assert explanation in {each.code for each in candidates[issue].explanations}


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"gum": "no_gum"}, "removed_cancel_or_pen"),
        ({"cancel": "maltese_cross", "cancel_colour": "violet"}, "faked_cross_colour"),
    ],
)
def test_patterns_of_faking_are_remarked(stamps: Stamps, more: dict[str, str], code: str) -> None:
    found = identify(reading(denomination="1d", colour="black", **more), stamps)
    assert code in {each.code for each in found.remarks}
    plain = identify(reading(denomination="1d", colour="black", cancel="maltese_cross"), stamps)
    assert code not in {each.code for each in plain.remarks}


def test_a_memory_date_cautions_and_does_not_condemn(stamps: Stamps) -> None:
    """The white-paper 1d of 1857 is dated from memory, the 1d black is not."""
    said = reading(
        denomination="1d",
        colour="rose-red",
        separation="perforated",
        gauge="14",
        alphabet="III",
        paper="white",
        date="1855-02",
    )
    soft = {each.issue_id: each for each in identify(said, stamps).candidates}
    dated = [
        each for each in soft["penny_red_lc14_die2_alph3_white"].against if each.rests_on == "date"
    ]
    assert [(each.source, each.strength) for each in dated] == [("memory", "weak")]
    early = identify(reading(denomination="1d", colour="black", date="1839-05"), stamps)
    hard = [each for each in early.candidates[0].against if each.rests_on == "date"]
    assert hard[0].source == "imperf_display" and hard[0].strength == "strong"


def test_reasons_speak_for_against_and_of_what_is_left(stamps: Stamps) -> None:
    said = reading(denomination="1d", colour="black", watermark="large_crown_1")
    first = identify(said, stamps).candidates[0]
    assert first.issue_id == "penny_black_1840"
    assert {each.rests_on for each in first.speaks_for} == {"denomination", "colour"}
    assert [each.rests_on for each in first.against] == ["watermark"]
    assert "separation" in first.not_looked_at and "watermark" not in first.not_looked_at
    assert all(each.source in stamps.sources for each in first.speaks_for)


def test_a_loose_word_is_no_contradiction(stamps: Stamps) -> None:
    said = reading(denomination="3d", colour="rose", corners="letters", watermark="emblems")
    assert identify(said, stamps).candidates[0].against == ()


def test_a_value_of_a_set_is_named_with_its_colour(stamps: Stamps) -> None:
    said = reading(denomination="1d", colour="scarlet", reign="george_5", watermark="simple_cypher")
    assert identify(said, stamps).candidates[0].name.startswith("1d scarlet, George V profile head")


def test_two_colours_are_one_observation(stamps: Stamps) -> None:
    both = Reading(
        "",
        (
            Observation("denomination", "1s", "1s"),
            Observation("colour", "green", "green"),
            Observation("colour", "carmine", "carmine"),
            Observation("reign", "victoria", "Victoria"),
        ),
    )
    assert identify(both, stamps).candidates[0].issue_id == "qv_1s_1900"


@pytest.mark.parametrize(
    ("gauge", "issue"),
    [
        ("15½x15", "qv_5s_1867_cross"),
        ("14", "qv_5s_1882_anchor"),
        ("14.1±0.2", "qv_5s_1882_anchor"),
        ("15.4x15.1", "qv_5s_1867_cross"),
    ],
)
def test_the_gauge_parts_the_five_shillings(stamps: Stamps, gauge: str, issue: str) -> None:
    """15½ x 15 is the Maltese cross printing, 14 the anchor (eb1911)."""
    said = reading(denomination="5s", colour="rose", gauge=gauge, plate="")
    found = identify(Reading("", said.observations[:3]), stamps)
    assert issue in found.together


def test_unknown_words_say_nothing(stamps: Stamps) -> None:
    plain = identify(reading(denomination="1d", colour="black"), stamps)
    more = identify(reading(denomination="1d", colour="black", overprint="SPECIMEN"), stamps)
    assert plain.candidates[0].issue_id == more.candidates[0].issue_id


_STAMPS = Library().stamps
VALUES = {
    kind: sorted({state for each in model_of(_STAMPS).variants for state in STATES[kind](each)})
    for kind in STATES
}
SAID = st.fixed_dictionaries(
    {}, optional={kind: st.sampled_from(each) for kind, each in VALUES.items()}
)


@settings(max_examples=60, deadline=None)
@given(SAID)
def test_shares_always_sum_to_one(said: dict[str, str]) -> None:
    found = identify(reading(**said), _STAMPS)
    whole = sum(found.shares.values()) + found.none_of_these
    assert isclose(whole, 1, abs_tol=1e-9)
    listed = sum(each.share for each in found.candidates) + found.others + found.none_of_these
    assert isclose(listed, 1, abs_tol=1e-9)
    order = [round(each.share, 6) for each in found.candidates]
    assert order == sorted(order, reverse=True)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_true_evidence_never_weakens_the_truth_against_a_stranger(data: st.DataObject) -> None:
    """A right observation, of which an issue is capable and another is not, moves the odds its way."""
    model = model_of(_STAMPS)
    variant = data.draw(st.sampled_from(model.variants))
    other = data.draw(st.sampled_from(model.variants))
    kind = data.draw(st.sampled_from(["denomination", "reign", "separation", "watermark", "process"]))
    mine, theirs = STATES[kind](variant), STATES[kind](other)
    if not mine or not theirs or set(mine) & set(theirs):
        return
    place, elsewhere = model.variants.index(variant), model.variants.index(other)
    before = weigh((), model).variants
    after = weigh((Clue(kind, mine[0], mine[0]),), model).variants
    assert after[place] / after[elsewhere] > before[place] / before[elsewhere]


@settings(max_examples=200, deadline=None)
@given(
    st.text(max_size=12), st.sampled_from(["gauge", "date", "letters", "plate", "colour", "overprint"])
)
def test_no_value_raises(value: str, kind: str) -> None:
    if kind == "letters":
        value = "".join(each for each in value.upper() if "A" <= each <= "Z")[:4]
        if len(value) not in (2, 4):
            return
    identify(reading(**{kind: value}), _STAMPS)


def test_the_card_gives_every_line_a_source(stamps: Stamps) -> None:
    allowed = {*stamps.sources, "common practice", "memory"}
    for name in stamps.issues:
        for line in card_of(name, stamps):
            assert line.label and line.text and line.source in allowed, (name, line)


def test_the_card_of_the_penny_black(stamps: Stamps) -> None:
    card = {line.label: line.text for line in card_of("penny_black_1840", stamps)}
    assert card["dates"] == "1 May 1840, valid from 6 May 1840, to 10 February 1841"
    assert card["watermark"] == "small crown"
    assert card["plates"].startswith("1a, 1b, 2")


def test_every_candidate_of_a_table_is_weighed_alike(model: Model) -> None:
    """Stamps alike in what a kind rests on have the same chance as when weighed one by one."""
    for kind, value in (
        ("watermark", "emblems"),
        ("colour", "rose"),
        ("date", "1865-03"),
        ("plate", "4"),
    ):
        row = model.row(kind, value)
        for place in range(0, len(model.variants), 17):
            chance = model.chance(model.variants[place], kind, value)
            if chance is not None:
                assert isclose(row.chances[place], max(chance, 1e-12))
