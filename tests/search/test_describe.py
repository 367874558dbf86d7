"""Descriptions say what was noted and nothing else. Terms and their order: common practice."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from counter.describe.description import long_form, short_line
from counter.describe.names import Names, issue_names
from counter.reference.library import Library
from counter.values.item import Certificate, CoverFacts, Fault, Item, TreatmentDone

PAIR = Item(
    "WK-1",
    "penny_black_1840",
    plate="6",
    letters=("KC", "KD"),
    multiple="pair",
    margins=("4", "3"),
    cancel="maltese_cross",
    cancel_colour="red",
    watermark="small_crown",
    faults=(Fault("thin", "at top"), Fault("closed_tear", "left edge")),
    attachment="cover",
    cover=CoverFacts("1840-05-12", "Wexholm", "Ludmere", tied="not_tied", finding="dates agree"),
    treatments=(
        TreatmentDone("2025-03-01", "press_dry", by="own hand", before="curled", after="flat"),
    ),
    certificate=Certificate("Ormsby Philatelic Committee", "2019-03-14", "4417", "genuine, creased"),
)


def test_the_short_line_says_it_all_in_few_words(names: Names) -> None:
    assert short_line(PAIR, names) == (
        "1d black pl 6 pair KC-KD on cover, KC 4 margins, KD 3 margins, red MX, thin at top, "
        "closed tear (left edge), treated: press dry, cert, 12 May 1840 Wexholm to Ludmere not tied"
    )


def test_the_long_form_is_a_listing(names: Names) -> None:
    assert long_form(PAIR, names).splitlines() == [
        "1d black, 1840, first issued 1 May 1840.",
        "Pair, plate 6, lettered K C, K D, watermark seen: small crown.",
        "KC 4 margins, KD 3 margins.",
        "Red Maltese Cross.",
        "On cover, from Wexholm to Ludmere, 12 May 1840, not tied.",
        "Faults: thin at top; closed tear (left edge).",
        "Treated 1 March 2025: press dry, before: curled, after: flat, by own hand.",
        "Certificate: Ormsby Philatelic Committee, no. 4417, 14 March 2019, genuine, creased.",
    ]


@pytest.mark.parametrize(
    ("item", "line"),
    [
        (Item("1", "two_pence_1841_white_lines", letters=("KC",)), "2d blue white lines imperf KC"),
        (Item("1", "penny_red_four_letters", plate="148", letters=("CKKC",)), "pl 148 CK/KC"),
        (Item("1", "penny_black_1840", margins=("four_large",)), "1d black, 4 large margins"),
        (
            Item("1", "penny_black_1840", letters=("KA", "KB", "KC"), multiple="strip_3"),
            "strip of 3 KA-KC",
        ),
        (
            Item("1", "e7_dlr_1902", denomination="1s", colour="green and carmine"),
            "1s green and carmine",
        ),
        (Item("1", "two_pence_lc14_plate5", plate="5"), "2d blue large crown perf 14 plate 5"),
        (Item("1", "penny_red_plate_77", plate="7"), "plate 77 pl 7"),
        (Item("1"), "not identified"),
        (Item("1", words="stampless entire", attachment="entire"), "on entire, stampless entire"),
        (Item("1", "some_issue_unknown"), "some issue unknown"),
        (Item("1", "penny_black_1840", cancel="none", gum="no_gum"), "uncancelled, unused without gum"),
    ],
)
def test_short_lines(names: Names, item: Item, line: str) -> None:
    assert line in short_line(item, names)


def test_what_was_not_looked_at_is_not_said(names: Names) -> None:
    bare = Item("WK-1", "penny_black_1840", letters=("KC",))
    for text in (short_line(bare, names), long_form(bare, names)):
        for word in ("watermark", "margin", "fine", "fault", "plate", "cancel", "certificate", "sound"):
            assert word not in text.lower()
    assert "watermark seen: small crown" in long_form(replace(bare, watermark="small_crown"), names)


NAMES = issue_names(Library().stamps)
terms = st.sampled_from(("thin", "crease", "closed_tear", "repaired", "regummed", "pulled_perf"))
faults = st.lists(st.builds(Fault, terms, st.sampled_from(("", "at top", "left"))), max_size=5)
treatments = st.lists(
    st.builds(
        TreatmentDone,
        date=st.sampled_from(("2025-03-01", "2024")),
        treatment=st.sampled_from(("peroxide_brush", "soak_float", "press_dry")),
        seconds=st.one_of(st.none(), st.integers(0, 9999)),
    ),
    max_size=4,
)


@given(faults, treatments)
@settings(max_examples=60, deadline=None)
def test_every_fault_and_every_treatment_is_in_both_forms(
    wrong: list[Fault], done: list[TreatmentDone]
) -> None:
    item = Item("1", "penny_black_1840", faults=tuple(wrong), treatments=tuple(done))
    for text in (short_line(item, NAMES), long_form(item, NAMES)):
        for fault in wrong:
            assert fault.term.replace("_", " ") in text
        for treatment in done:
            assert treatment.treatment.replace("_", " ") in text


def test_price_cost_and_what_only_the_dealer_knows_are_in_neither_form(names: Names) -> None:
    item = replace(PAIR, asking=123456, cost=98765, remarks="zz", kept="zz", purchase="zz")
    item = replace(item, reference="zz", scheme="margin", status="reserved", noted="2026-01-01")
    assert short_line(item, names) == short_line(PAIR, names)
    assert long_form(item, names) == long_form(PAIR, names)
