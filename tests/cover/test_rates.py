"""Every rate period's first and last day and each weight step, against the published tables."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.judge.cover.case import Case
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.postage_scale import OUNCES
from counter.judge.cover.question import RateAnswer, RateQuestion
from counter.judge.cover.rate_checks import rate_match
from counter.judge.cover.rates import rate_for, rate_that_paid
from counter.judge.cover.weights import has_open_scale, weights_paying
from counter.reference.postal import Postal, read_postal
from counter.values.dates import on_day, read_date
from counter.values.postage import Postage, read_postage

from . import rate_tables as tables


def ask(postal: Postal, day: str, ounces: Any = None, **more: Any) -> RateAnswer:
    weight = None if ounces is None else Fraction(ounces)
    return rate_for(postal, RateQuestion(read_date(day), weight, **more))


def rows() -> Iterator[Any]:
    for service, unit, table in (
        ("letter", "oz", tables.LETTERS_OZ),
        ("letter", "oz", tables.FIRST_CLASS),
        ("letter", "g", tables.FIRST_CLASS_GRAMS),
        ("first", "oz", tables.FIRST_CLASS),
        ("second", "oz", tables.SECOND_CLASS),
        ("second", "g", tables.SECOND_CLASS_GRAMS),
        ("postcard", "oz", tables.CARDS),
        ("printed", "oz", tables.PRINTED),
        ("parcel", "oz", tables.PARCELS),
    ):
        for first, last, prices, source in table:
            for day in (first, last):
                for weight, pence in prices.items():
                    name = f"{service} {day} {weight}{unit}"
                    yield pytest.param(service, day, weight * OUNCES[unit], pence, source, id=name)


@pytest.mark.parametrize(("service", "day", "ounces", "pence", "source"), list(rows()))
def test_the_published_tables(
    postal: Postal, service: str, day: str, ounces: Fraction, pence: Any, source: str
) -> None:
    answer = ask(postal, day, ounces, service=service)
    assert answer.pence == pence
    assert answer.established == (pence is not None)
    assert answer.unit == ("d" if day < "1971-02-15" else "p")
    assert source in answer.source


def test_every_inland_record_is_in_a_table(postal: Postal) -> None:
    named = {
        (first, last)
        for name in dir(tables)
        if name.isupper() and name not in ("OVERSEAS", "MILES_1812", "REGISTRATION", "MORE", "H", "F")
        for first, last, *_ in getattr(tables, name)
    }
    short = {"general-1812-single", "local-penny-post"}
    older = {"general-1796", "general-1801", "general-1805", "twopenny-town", "twopenny-country"}
    papers = ("newspaper-", "sample-", "parcel-1915")  # in the examples of rate_examples.py
    for rate in postal.rates.values():
        if not rate.route and rate.id not in short | older and not rate.id.startswith(papers):
            assert (rate.first, rate.last) in named, rate.id


@pytest.mark.parametrize(
    "service", ["letter", "letter_first", "letter_second", "postcard", "printed_papers"]
)
def test_periods_follow_without_gap_or_overlap(postal: Postal, service: str) -> None:
    mine = [rate for rate in postal.rates.values() if rate.service == service and not rate.route]
    mine.sort(key=lambda rate: rate.first)
    for earlier, later in pairwise(mine):
        expected = date.fromisoformat(earlier.last) + timedelta(1)
        assert later.first == expected.isoformat(), (earlier.id, later.id)


@pytest.mark.parametrize("name", ["France", "United States", "Germany", "India", "Japan", "Australia"])
def test_one_overseas_record_a_day(postal: Postal, name: str) -> None:
    start = min(first for place, first, *_ in tables.OVERSEAS if place == name)
    unknown = {"Australia": ("1889", "1890")}.get(name, ())
    day = date.fromisoformat(start)
    while day < date(1940, 5, 1):
        answer = ask(postal, day.isoformat(), Fraction(1, 4), to=name)
        gap = "1922-05-29" <= day.isoformat() <= "1923-05-13" and name in ("Germany", "France", "Japan")
        assert answer.established != gap or str(day.year) in unknown, (name, day)
        day += timedelta(13)


@pytest.mark.parametrize(("miles", "pence"), tables.MILES_1812)
def test_the_scale_of_1812(postal: Postal, miles: int, pence: int) -> None:
    for day in ("1812-07-09", "1839-12-04"):
        for sheets in (1, 2, 3):
            answer = ask(postal, day, miles=Fraction(miles), sheets=sheets)
            assert answer.pence == pence * sheets
        # an ounce is four singles, then one for every quarter of an ounce reached (phill1887)
        assert ask(postal, day, 1, miles=Fraction(miles)).pence == 4 * pence
        assert ask(postal, day, "1.3", miles=Fraction(miles)).pence == 5 * pence


def test_just_over_a_stage_costs_the_next(postal: Postal) -> None:
    for (miles, _), (_, pence) in pairwise(tables.MILES_1812):
        assert ask(postal, "1830-01-01", miles=miles + Fraction(1, 10), sheets=1).pence == pence


def test_london_to_edinburgh_was_thirteen_pence_single(postal: Postal) -> None:
    # The Empire and the Century: 13½d with the Scottish halfpenny, which is told apart
    answer = ask(postal, "1835-06-01", miles=Fraction(400), sheets=1)
    assert answer.pence == 13
    assert any("Scotland: ½d" in said for said in answer.also)


@pytest.mark.parametrize(
    ("more", "wanted"),
    [
        ({}, ["miles", "sheets"]),
        ({"miles": Fraction(10)}, ["sheets"]),
        ({"sheets": 1}, ["miles"]),
        ({"sheets": 5, "miles": Fraction(10)}, ["weigh"]),
    ],
)
def test_before_the_uniform_rates_what_is_missing_is_asked(
    postal: Postal, more: dict[str, Any], wanted: list[str]
) -> None:
    answer = ask(postal, "1835-06-01", **more)
    assert answer.pence is None
    assert len(answer.asks) == len(wanted)
    assert all(word in question for word, question in zip(wanted, answer.asks, strict=True))


def test_weight_is_asked_where_it_decides_and_not_where_it_does_not(postal: Postal) -> None:
    assert ask(postal, "1842-03-12").asks == ("What does it weigh in ounces?",)
    assert ask(postal, "1880-01-01", service="postcard").pence == Fraction(1, 2)


@pytest.mark.parametrize(("first", "last", "fee", "source"), tables.REGISTRATION)
def test_registration_on_top_of_the_letter(
    postal: Postal, first: str, last: str, fee: int | None, source: str
) -> None:
    for day in (first, last):
        letter, both = ask(postal, day, "0.5"), ask(postal, day, "0.5", service="registered")
        assert letter.pence is not None
        assert both.pence == (None if fee is None else letter.pence + fee)
        if fee is not None:
            assert len(both.parts) == 2
            assert source in both.source


@pytest.mark.parametrize(
    ("day", "more", "figure", "why"),
    [
        ("1979-08-20", {}, "10p", "no source that was read"),
        ("1974-11-01", {}, "4½p", "a single source of low confidence"),
        ("1960-01-01", {"service": "postcard"}, "2½d", "a single source of low confidence"),
        (
            "1930-01-01",
            {"service": "registered"},
            "the registration fee of 3d",
            "no source that was read",
        ),
    ],
)
def test_a_figure_is_never_surer_than_its_source(
    postal: Postal, day: str, more: dict[str, Any], figure: str, why: str
) -> None:
    answer = ask(postal, day, "0.5", **more)
    assert (answer.established, answer.pence, answer.confidence) == (False, None, "low")
    assert answer.text.startswith("Not established") and f"{figure} rests on {why}" in answer.text


def test_what_memory_alone_gives_neither_proves_nor_condemns_a_franking(postal: Postal) -> None:
    asked = RateQuestion(read_date("1979-10-01"))
    (span,) = weights_paying(postal, asked, asked.when.earliest, Postage(Fraction(10), "p"))
    assert not span.established
    assert has_open_scale(postal, asked, asked.when.earliest)
    seen = CoverSeen(when=asked.when, franking=Postage(Fraction(10), "p"))
    for franked in (seen, replace(seen, franking=Postage(Fraction(9), "p"))):
        for ounces in (None, Fraction(1)):
            case = Case(postal, replace(franked, ounces=ounces))
            assert rate_match(case).speaks == "neutral"


def test_no_rate_stands_on_the_list_that_errs_alone(postal: Postal) -> None:
    # its own note in the sources: used only as a second witness
    for rate in postal.rates.values():
        if rate.source == "webrates" and not rate.also_source:
            assert rate.confidence == "low", rate.id


def test_a_first_day_from_memory_is_told_beside_the_figure(postal: Postal) -> None:
    assert any("1 April 1865 has no source" in also for also in ask(postal, "1866-01-01", 1).also)
    assert not any("memory" in also for also in ask(postal, "1842-01-01", 1).also)


def test_no_registration_before_it_began_and_none_known_in_new_pence(postal: Postal) -> None:
    assert "6 January 1841" in ask(postal, "1841-01-05", "0.5", service="registered").text
    assert not ask(postal, "1971-02-15", 1, service="registered").established


@pytest.mark.parametrize(("place", "first", "last", "prices", "source"), tables.OVERSEAS)
def test_overseas(
    postal: Postal, place: str, first: str, last: str, prices: dict[Any, Any], source: str
) -> None:
    for day in (first, last):
        for ounces, pence in prices.items():
            answer = ask(postal, day, ounces, to=place)
            assert answer.pence == pence, (place, day, ounces)
            assert source in answer.source


def test_of_several_ways_the_one_that_the_stamps_paid(postal: Postal) -> None:
    # Scottish directory of about 1844-48: Hong Kong by Southampton 1s 4d, by Marseilles under ½ oz 2s 7d
    asked = RateQuestion(read_date("1846-05-01"), Fraction(2, 5), to="Hong Kong")
    for paid, way in (("1s4d", "by Southampton"), ("2s7d", "by Marseilles")):
        answer = rate_that_paid(postal, asked, read_postage(paid))
        assert answer.pence == read_postage(paid).pence and way in answer.text
        assert not answer.decides
    assert not rate_that_paid(postal, asked, read_postage("1s")).established


@pytest.mark.parametrize(
    ("day", "place", "decides"),
    [
        ("1846-05-01", "Gibraltar", False),  # a directory, dated by its own text alone
        ("1865-05-01", "Malta", False),  # the colonies as one
        ("1865-05-01", "Belgium", False),  # the end is not told
        ("1863-01-20", "USA", True),
        ("1880-05-01", "Germany", True),
    ],
)
def test_what_is_dated_roughly_never_speaks_against(
    postal: Postal, day: str, place: str, decides: bool
) -> None:
    answer = ask(postal, day, "0.5", to=place)
    assert answer.established and answer.decides == decides


def test_cards_abroad(postal: Postal) -> None:
    # Postal Stationery Society: sold at exactly 1¼d from 1 July 1875
    assert ask(postal, "1875-07-01", service="postcard", to="Germany").pence == Fraction(5, 4)
    assert ask(postal, "1879-03-31", service="postcard", to="USA").pence == Fraction(5, 4)
    assert ask(postal, "1879-04-01", service="postcard", to="Italy").pence == 1
    assert not ask(postal, "1875-12-31", service="postcard", to="France").established
    assert not ask(postal, "1921-06-13", service="postcard", to="France").established


@pytest.mark.parametrize("place", ["Atlantis", "Persia", "India", "Cape"])
def test_a_place_the_reference_cannot_answer_for(postal: Postal, place: str) -> None:
    answer = ask(postal, "1880-01-01", "0.5", to=place)
    assert (answer.pence, answer.unit, answer.established) == (None, "d", False)


@pytest.mark.parametrize(
    ("day", "ounces", "pence"),
    [
        ("1842-03-12", "0.5", 2),  # Scottish directory of the 1840s: double
        ("1850-01-01", "2", 8),  # Southampton directory: unpaid 4n between n-1 and n ounces
        ("1850-01-01", "3", 12),
        ("1839-12-20", "0.5", 4),  # Treasury Warrant: the same as prepaid up to an ounce
        ("1839-12-20", "1", 8),
        ("1839-12-20", "2", 24),  # and 16d for each further ounce
        ("1950-03-15", "2", 5),  # a dated cover: unpaid 2½d charged 5d
        ("1969-01-01", "3", 8),  # unstamped went second class, 4d doubled
    ],
)
def test_unpaid(postal: Postal, day: str, ounces: str, pence: int) -> None:
    assert ask(postal, day, ounces, unpaid=True).pence == pence


def test_unpaid_where_nothing_is_known(postal: Postal) -> None:
    assert not ask(postal, "1971-03-01", 1, unpaid=True).established
    assert not ask(postal, "1900-01-01", 1, service="printed", unpaid=True).established
    assert not ask(postal, "1865-01-01", "0.25", to="France", unpaid=True).established


@pytest.mark.parametrize(
    ("day", "at", "pence"),
    [
        ("1850-03-01", "18:30", 2),  # 1d from 6 to 7
        ("1850-03-01", "19:00", 7),  # 6d from 7.00 to 7.30
        ("1850-03-01", "19:30", 7),
        ("1850-03-01", "late", 7),
        ("1850-03-01", "17:00", None),
        ("1866-01-01", "late", None),
    ],
)
def test_the_london_late_fee(postal: Postal, day: str, at: str, pence: int | None) -> None:
    assert ask(postal, day, "0.5", late_at=at).pence == pence


def test_the_late_fee_to_france_of_1871(postal: Postal) -> None:
    # philatelic press: London to France, 10 April 1871, 3d and 1d late fee
    answer = ask(postal, "1871-04-10", Fraction(1, 3), to="Paris", late_at="late")
    assert answer.pence == 4


def test_redirection_costs_a_further_postage(postal: Postal) -> None:
    assert ask(postal, "1850-03-01", "0.5", redirected=2).pence == 3
    assert not ask(postal, "1892-01-01", "0.5", redirected=1).established


def test_a_partial_date_answers_only_when_nothing_changed_in_it(postal: Postal) -> None:
    answer = ask(postal, "1842", "0.5")
    assert answer.pence == 1
    assert "in 1842" in answer.text
    changed = ask(postal, "1865", "1.5")
    assert changed.pence is None
    assert "4d" in changed.text and "3d" in changed.text
    assert changed.asks[0] == "On which day was it posted?"


@pytest.mark.parametrize("day", ["1700-01-01", "1795-12-31", "1981-01-26", "1999-12-31"])
def test_dates_outside_the_records(postal: Postal, day: str) -> None:
    answer = ask(postal, day, "0.5", sheets=1, miles=Fraction(10))
    assert (answer.pence, answer.established) == (None, False)
    assert answer.text.startswith("Not established for")


def test_short_distances_in_the_fourpenny_weeks(postal: Postal) -> None:
    assert ask(postal, "1840-01-09", "0.5", miles=Fraction(8)).pence == 2
    assert ask(postal, "1840-01-09", "0.5", miles=Fraction(9)).pence == 4
    assert ask(postal, "1840-01-10", "0.5", miles=Fraction(8)).pence == 1


def test_from_two_tiers_on_a_card_pays_as_a_letter(postal: Postal) -> None:
    answer = ask(postal, "1968-09-16", "0.5", service="postcard")
    assert answer.pence == 5
    assert "no rate of their own" in answer.text
    assert any("4d" in said for said in answer.also)


@pytest.mark.parametrize(
    ("day", "paid", "words"),
    [
        ("1842-03-12", "1d", ["up to ½ oz"]),
        ("1842-03-12", "2d", ["over ½ to 1 oz"]),
        ("1842-03-12", "3d", []),  # no 3d letter existed inland: the steps go 1d, 2d, 4d, 6d
        ("1842-03-12", "4d", ["over 1 to 2 oz"]),
        ("1872-01-01", "4d", ["over 10 to 12 oz"]),
        ("1872-01-01", "13d", ["over 12 to 13 oz"]),
        ("1872-01-01", "5d", []),
        ("1916-01-01", "2d", ["over 1 to 2 oz (not proved)"]),
        ("1842-03-12", "1p", []),
    ],
)
def test_which_weights_explain_a_franking(
    postal: Postal, day: str, paid: str, words: list[str]
) -> None:
    when = read_date(day)
    spans = weights_paying(postal, RateQuestion(when), when.earliest, read_postage(paid))
    assert [span.words() for span in spans] == words


DAYS = st.dates(date(1840, 1, 10), date(1968, 9, 15))
OZ = st.fractions(Fraction(1, 100), Fraction(20), max_denominator=100)
POSTAL = read_postal()


@given(DAYS, OZ, OZ)
def test_a_heavier_letter_never_costs_less(day: date, one: Fraction, other: Fraction) -> None:
    light, heavy = (
        rate_for(POSTAL, RateQuestion(on_day(day), weight)).pence for weight in sorted((one, other))
    )
    assert light is None or heavy is None or light <= heavy


@given(DAYS, OZ)
def test_the_weights_that_explain_a_rate_include_the_weight(day: date, ounces: Fraction) -> None:
    asked = RateQuestion(on_day(day), ounces)
    answer = rate_for(POSTAL, asked)
    if answer.pence is not None:
        spans = weights_paying(POSTAL, asked, day, Postage(answer.pence, answer.unit))
        holding = [span for span in spans if span.over < ounces <= (span.upto or 999)]
        assert [span.established for span in holding] == [True]
