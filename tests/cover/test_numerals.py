"""Numbers against offices, as published; the source of each stands beside it."""

import pytest

from counter.reference.postal import Postal
from counter.reference.postal_numerals import is_code_abroad
from counter.values.dates import read_date

PUBLISHED = [
    ("1", "england_wales", "Abergavenny", "gbps_numbers"),
    ("930", "england_wales", "York", "gbps_numbers"),
    ("466", "england_wales", "Liverpool", "stamp_wiki"),
    ("498", "england_wales", "Manchester", "stamp_wiki_towns"),
    ("162", "england_wales", "Cardiff", "stamp_wiki"),
    ("53", "england_wales", "Bath", "somerset_blog"),
    ("683", "england_wales", "Salisbury", "salisbury_society"),
    ("324", "england_wales", "Guernsey", "stamp_atlas"),
    ("407", "england_wales", "Isle of Man", "stamp_atlas"),
    ("036", "england_wales", "Ramsey", "stamp_atlas"),
    ("159", "scotland", "Glasgow", "gbimperf"),
    ("114", "scotland", "Dundee", "dundee_note"),
    ("186", "ireland", "Dublin", "gbimperf"),
    ("62", "ireland", "Belfast", "nips_2010"),
    ("A01", "abroad", "Jamaica", "rpsl_jamaica"),
    ("A40", "abroad", "Flint River", "rpsl_jamaica"),
    ("A25", "abroad", "Malta", "malta_study"),
    ("C51", "abroad", "St Thomas", "stampnotes_mayaguez"),
    ("C30", "abroad", "Valparaiso", "stamp_atlas"),
    ("C", "abroad", "Constantinople", "levant_paper"),
]


@pytest.mark.parametrize(("number", "series", "office", "source"), PUBLISHED)
def test_a_published_number_names_its_office(
    postal: Postal, number: str, series: str, office: str, source: str
) -> None:
    first = postal.numerals.offices(number, series)[0]
    assert postal.is_office(first, office)
    assert first.sourced and first.source == source
    assert first in postal.numerals.of_place(office)


def test_every_number_is_carried(postal: Postal) -> None:
    records = postal.numerals.records.values()
    assert len(records) == 204  # 72 and 138 of the lists, six that only add to one of them
    assert sum(each.source == "memory" for each in records) == 120


def test_the_series_keeps_the_same_number_apart(postal: Postal) -> None:
    found = {each.office for each in postal.numerals.offices("159")}
    assert found == {"Glasgow"}
    assert postal.numerals.offices("159", "england_wales") == ()
    assert {each.office for each in postal.numerals.offices("1")} == {"Abergavenny", "Aberdeen"}
    assert not postal.numerals.offices("36") and postal.numerals.offices("036")


def test_memory_is_marked(postal: Postal) -> None:
    (leeds,) = postal.numerals.offices("447", "england_wales")
    assert leeds.office == "Leeds" and not leeds.sourced


@pytest.mark.parametrize(
    ("code", "day", "use"),
    [
        ("A01", "1859-10-12", "fits"),  # rpsl_jamaica: 8 May 1858 to 1 August 1860
        ("A01", "1864-12-12", "after"),
        ("A40", "1861-10-12", "after"),
        ("A40", "1859-02-28", "before"),  # numbers sent in March 1859
        ("A02", "1859-10-11", "fits"),  # antigua_note: 1858-62
        ("A02", "1862-06-01", "fits"),
        ("A02", "1863-01-01", "after"),
        ("C51", "1867-11-14", "fits"),
        ("942", "1880-04-01", "after"),  # stamp_atlas: Cyprus to 31 March 1880
        ("A26", "1860-01-01", ""),  # no years told
    ],
)
def test_the_years_of_british_stamps_abroad(postal: Postal, code: str, day: str, use: str) -> None:
    assert postal.numerals.offices(code, "abroad")[0].use(read_date(day)) == use


@pytest.mark.parametrize(
    ("number", "series", "day", "town", "says"),
    [
        ("880", "england_wales", "1846-05-02", "Norwich", "no"),  # 683 Salisbury to 930 York
        ("880", "england_wales", "1846-05-02", "Worthing", "fits"),
        ("880", "england_wales", "1846-05-02", "Reading", "near"),
        ("447", "england_wales", "1846-05-02", "Leeds", "fits"),
        ("447", "england_wales", "1846-05-02", "Bristol", "no"),
        ("470", "england_wales", "1850", "Leeds", "near"),
        ("300", "ireland", "1847-03-01", "Armagh", "no"),
        ("50", "scotland", "1845-09-01", "Perth", "no"),
        ("A62", "abroad", "1859-06-01", "Alexandria", "no"),
    ],
)
def test_the_alphabet_of_the_first_allotment(
    postal: Postal, number: str, series: str, day: str, town: str, says: str
) -> None:
    between = postal.numerals.between(number, series, read_date(day))
    assert between is not None and between.fits(town) == says
    assert between.strength in ("weak", "moderate")


def test_the_alphabet_says_where_a_number_stands(postal: Postal) -> None:
    between = postal.numerals.between("880", "england_wales")
    assert between and between.words() == "880 stands between 683 Salisbury and 930 York"
    assert between.strength == "moderate"
    assert postal.numerals.between("300", "scotland").strength == "weak"  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("number", "series", "day"),
    [
        ("466", "england_wales", "1846"),  # sourced: the record itself decides
        ("880", "england_wales", "1858-05-02"),  # given again by then
        ("950", "england_wales", "1850"),  # past the alphabet
        ("036", "england_wales", "1852"),
        ("500", "ireland", "1850"),
        ("880", "", "1846"),
        ("B20", "abroad", "1859"),
    ],
)
def test_where_no_order_holds_nothing_is_inferred(
    postal: Postal, number: str, series: str, day: str
) -> None:
    assert postal.numerals.between(number, series, read_date(day)) is None


def test_memory_never_bounds_an_inference(postal: Postal) -> None:
    between = postal.numerals.between("890", "england_wales")
    assert between and between.below and between.above
    assert between.below.sourced and between.above.sourced


@pytest.mark.parametrize("code", ["A01", "a 02", "C51", "D22", "E53", "F85", "G06", "C", "S", "G", "M"])
def test_a_letter_before_the_number_is_an_office_abroad(code: str) -> None:
    assert is_code_abroad(code)


@pytest.mark.parametrize("number", ["466", "036", "H", "X1", "", "WC4"])
def test_a_plain_number_is_not(number: str) -> None:
    assert not is_code_abroad(number)


def test_a_run_answers_where_nothing_closer_does(postal: Postal) -> None:
    (run,) = postal.numerals.offices("A66")
    assert run.upto == "A78" and postal.is_office(run, "Jamaica")
    assert {each.office for each in postal.numerals.offices("A80")} >= {"Pacific naval stations"}


@pytest.mark.parametrize(
    ("cancel", "series"), [("num_scotland_1844", "scotland"), ("num_used_abroad", "abroad"), ("x", "")]
)
def test_the_series_of_a_cancel(postal: Postal, cancel: str, series: str) -> None:
    assert postal.numerals.series_of(cancel) == series
