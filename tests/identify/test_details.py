"""Fields beside an issue's id, first days, varieties, and what is no postage stamp.

First days: 5d Machin 1 July 1968 (a private timeline named in the reference); regional 3d of 18 August 1958
(a society's page); days without a source only caution. Acts named in the reference: fiscals good for
postage from 1 June 1881 and 1 January 1883. The rest is common practice.
"""

from __future__ import annotations

import pytest

from counter.judge.identify import Identification, details_of, identify
from counter.judge.reading import read_line
from counter.reference.library import Library


def answered(line: str, library: Library) -> Identification:
    return identify(read_line(line, library.vocabulary), library.stamps)


@pytest.mark.parametrize(
    ("line", "band", "country", "day"),
    [
        ("machin 3p ultramarine 2 bands", "two bands", "", "1971-02-15"),
        ("machin 3p ultramarine centre band", "centre band", "", "1973-09-10"),
        ("scotland 3d lilac multiple crowns no phosphor", "none", "scotland", "1958-08-18"),
        ("guernsey 4d sepia", "centre band", "guernsey", "1968-09-04"),
        ("wilding 2½d tudor crown", "", "", "1952-12-05"),
    ],
)
def test_band_country_and_first_day_stand_beside_the_id(
    line: str, band: str, country: str, day: str, library: Library
) -> None:
    reading = read_line(line, library.vocabulary)
    first = identify(reading, library.stamps).candidates[0]
    told = details_of(first.issue_id, first.denomination, first.colour, reading, library.stamps)
    if country:
        assert first.issue_id == "e2_regional_1958"
        assert all(country in each.countries for each in told.first_days)
    assert told.band == band and told.country == country and told.first_days[0].issued == day


def test_a_set_is_named_by_its_day_and_its_stamps_by_value(library: Library) -> None:
    reading = read_line("coronation 1/3 1953", library.vocabulary)
    first = identify(reading, library.stamps).candidates[0]
    told = details_of(first.issue_id, first.denomination, first.colour, reading, library.stamps)
    assert told.set is not None and told.set.date == "1953-06-03" and first.denomination == "1s3d"


def test_a_use_before_the_first_day_of_the_value_is_cautioned(library: Library) -> None:
    (early,) = [
        each
        for each in answered("5d blue machin tied 10 jan 1968", library).remarks
        if each.code.startswith("fd-")
    ]
    assert "before the first day of the 5d" in early.text and "1 July 1968" in early.text
    assert early.strength == "moderate" and early.source == "machin_time"


def test_a_day_without_a_source_cautions_weakly_and_decides_nothing(library: Library) -> None:
    found = answered("wilding 1½d green st edwards crown tied 2 aug 1955", library)
    (early,) = [each for each in found.remarks if each.code.startswith("fd-")]
    assert early.strength == "weak" and "decides nothing" in early.text
    assert found.candidates[0].issue_id == "e2_wilding_edward"


def test_the_sets_are_weighed_only_where_the_line_speaks_of_one(library: Library) -> None:
    assert not set(answered("4d ultramarine elizabeth", library).shares) & library.stamps.sets.keys()
    assert set(answered("4d jamboree 1957", library).shares) >= library.stamps.sets.keys()


@pytest.mark.parametrize(
    ("line", "issue"),
    [
        ("1d lilac 16 dots postage and inland revenue", "qv_1d_lilac_die2"),
        ("1d red pl 120 LD DL fiscal cancel", "penny_red_four_letters"),
        ("6d embossed violet", "qv_embossed_6d_1854"),
    ],
)
def test_a_postage_stamp_stays_one_beside_a_fiscal_word(
    line: str, issue: str, library: Library
) -> None:
    found = answered(line, library)
    assert found.candidates and found.candidates[0].issue_id == issue


def test_what_is_no_postage_stamp_tells_when_it_was_good_for_postage(library: Library) -> None:
    text = " ".join(each.text for each in answered("inland revenue 1d lilac", library).remarks)
    assert "not a postage stamp" in text and "1 June 1881" in text


def test_a_variety_leads_to_its_stamp_and_says_where_to_look(library: Library) -> None:
    for each in library.stamps.varieties.values():
        if not each.issues or each.id.startswith("prussian"):
            continue
        found = answered(each.name, library)
        told = [reason.text for reason in found.remarks if reason.code == each.id]
        assert any(each.look in text for text in told), each.id
        tied = [
            one.issue_id for one in found.candidates if one.share >= found.candidates[0].share - 0.02
        ]
        assert set(tied) & set(each.issues), (each.id, tied)


def test_plate_and_letters_alone_recall_the_variety_of_that_place(library: Library) -> None:
    found = answered("1d red imperf alphabet I pl 75 LK", library)
    assert "union_jack" in {reason.code for reason in found.remarks}
