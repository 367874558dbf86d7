"""Covers as a dealer types them: good, made up, early cancel, wrong rate, late use, re-used letter."""

import json
from fractions import Fraction

import pytest

from counter.cli.main import main
from counter.desk.covers.case import CoverCase, case_of_item, open_case
from counter.judge.cover.check import DEFER
from counter.judge.cover.finding import WORDS
from counter.reference.library import Library
from counter.values.item import CoverFacts, Fault, Item

LIBRARY = Library()


def spoken(text: str) -> tuple[str, dict[str, tuple[str, str]]]:
    found = open_case(LIBRARY, text).found
    return found.finding, {each.id: (each.speaks, each.strength) for each in found.results}


@pytest.mark.parametrize(
    ("text", "finding", "decisive"),
    [
        # good
        (
            "1d red imperf tied black mx leeds 12 mar 1842 half ounce",
            "consistent",
            {"tie": ("for", "strong"), "rate_match": ("for", "moderate")},
        ),
        ("1d black tied red mx 12 may 1840 franked 1d half ounce", "consistent", {}),
        # untied is normal in the years of the cross, and weak at most later
        (
            "1d black not tied red mx bath 12 may 1840 franked 1d",
            "undecided",
            {"tie": ("neutral", "none")},
        ),
        (
            "1d red imperf not tied numeral york 12 may 1850 franked 1d",
            "undecided",
            {"tie": ("against", "weak")},
        ),
        (
            "1d red imperf tied black mx leeds 12 mar 1842 no backstamp",
            "consistent",
            {"route_and_backstamps": ("neutral", "none")},
        ),
        # what the line itself says of the stamp
        (
            "1d red imperf, added later, black mx, 12 mar 1842, franked 1d, half ounce, leeds",
            "contradicts",
            {"empty_under_stamp": ("against", "strong")},
        ),
        # before the stamp
        ("1d black red mx 3 mar 1839", "contradicts", {"date_before_issue": ("against", "strong")}),
        ("1d black red mx 1 may 1840", "contradicts", {"date_before_issue": ("against", "strong")}),
        (
            "1d black red mx 4 may 1840",
            "caution",
            {  # the early red cross is one reason, told once
                "date_before_issue": ("against", "moderate"),
                "cancel_period": ("against", "moderate"),
                "cancel_colour_period": ("neutral", "none"),
            },
        ),
        (
            "1d red imperf on cover black mx 12 jun 1840 tied",
            "contradicts",
            {"date_before_issue": ("against", "strong"), "tie": ("for", "strong")},
        ),
        (
            "1d red stars perf 16 small crown tied numeral york 4 may 1845",
            "contradicts",
            {"date_before_issue": ("against", "strong")},
        ),
        # early cancel
        (
            "1d red imperf tied numeral york 3 nov 1843",
            "contradicts",
            {"cancel_period": ("against", "strong")},
        ),
        (
            "1d red imperf squared circle 1850",
            "contradicts",
            {"cancel_period": ("against", "strong")},
        ),
        # wrong colour, brown cross, wrong country
        ("1d red imperf red mx leeds 12 dec 1843", "caution", {}),
        (
            "1d black tied brown mx bath 12 may 1840",
            "caution",
            {"cancel_colour_period": ("against", "moderate")},
        ),
        (
            "1d red imperf scottish numeral leeds 5 jul 1845",
            "contradicts",
            {"cancel_region": ("against", "strong")},
        ),
        # wrong rate: no letter of 3d existed inland in 1842
        (
            "1d red imperf tied black mx leeds 12 mar 1842 1 oz franked 1d",
            "caution",
            {"rate_match": ("against", "moderate")},
        ),
        (
            "1d red imperf strip of 3 tied black mx leeds 12 mar 1842 franked 3d",
            "caution",
            {"rate_match": ("against", "moderate")},
        ),
        (
            "1d red imperf pair tied black mx leeds 12 mar 1842",
            "consistent",
            {"rate_match": ("neutral", "none")},  # a rate without a weight is no evidence
        ),
        # charge marks
        (
            "1d red imperf tied black mx york 12 mar 1842 unpaid 2 half ounce",
            "contradicts",
            {"charge_marks": ("against", "strong")},
        ),
        (
            "1d red imperf tied black mx york 12 mar 1842 1 oz charged 2",
            "consistent",
            {"charge_marks": ("for", "moderate"), "rate_match": ("neutral", "none")},
        ),
        (
            "1d black red mx york 12 jun 1840 paid 1",
            "contradicts",
            {"charge_marks": ("against", "strong")},
        ),
        # late use, and a letter used twice
        (
            "1d black cds london 12 mar 1885",
            "caution",
            {"date_long_after": ("against", "moderate")},
        ),
        (
            "turned letter 1d red imperf tied black mx leeds 12 mar 1842",
            "consistent",
            {"reused_letter": ("against", "weak")},
        ),
        # the back
        (
            "1d red imperf tied black mx leeds 12 mar 1842 arrival 11 mar 1842",
            "contradicts",
            {"transit_time": ("against", "strong")},
        ),
        # multiples
        (
            "1d red imperf pair KA-KB tied black mx leeds 12 mar 1842",
            "consistent",
            {"corner_letters_multiple": ("for", "strong")},
        ),
        (
            "1d red imperf pair KA-MF tied black mx leeds 12 mar 1842",
            "contradicts",
            {"corner_letters_multiple": ("against", "strong")},
        ),
        # what a person saw
        (
            "1d red imperf tied black mx leeds 12 mar 1842 fold through stamp",
            "consistent",
            {"paper_evidence": ("for", "strong")},
        ),
        (
            "1d red imperf tied black mx leeds 12 mar 1842 cancel stops at the edge",
            "contradicts",
            {"tie_continuity": ("against", "strong")},
        ),
        # hidden faults, registered without the fee, a telegram, a strike, high value
        (
            "1d red imperf on cover tied black mx leeds 12 mar 1842 thin",
            "caution",
            {"hidden_fault": ("against", "moderate")},
        ),
        (
            "1d red plate 148 tied duplex leeds 13 jan 1872 registered franked 1d",
            "caution",
            {"service_fits": ("against", "moderate")},
        ),
        (
            "1d red plate 148 telegraph cancel 13 jan 1872",
            "contradicts",
            {"telegraph_or_fiscal": ("against", "strong")},
        ),
        ("machin 3p tied machine london 1 mar 1971", "caution", {}),
        (
            "2s6d tied cds london 12 mar 1885",
            "caution",
            {"value_vs_service": ("against", "moderate")},
        ),
        # without a stamp: the charge is held against the day
        (
            "stampless entire 21 dec 1839 manuscript 4 leeds backstamp 22 dec 1839 full contents",
            "consistent",
            {"charge_marks": ("for", "moderate"), "tie": ("neutral", "none")},
        ),
        (
            "stampless entire 21 jan 1841 manuscript 4 leeds",
            "undecided",  # 4d was then an ounce unpaid: the weight would tell
            {"charge_marks": ("neutral", "none")},
        ),
        (
            "stampless entire 5 dec 1839 addl ½ perth",
            "contradicts",
            {"charge_marks": ("against", "strong")},
        ),
        # a year in which postage changed: 10 January 1840 (Treasury minute, 26 December 1839)
        ("1d black 1840 douglas", "undecided", {"rate_match": ("neutral", "none")}),
        # the halfpenny card of 1870-1918 (Scottish Post Office directories 1885-97)
        (
            "½d green edward vii postcard 3.9.03",
            "undecided",
            {"rate_match": ("for", "moderate")},
        ),
        # London: 1d from 6 to 7 pm, 6d to half past ("The London 6d inland late fee")
        (
            "1d red imperf late fee franked 2d 1 jun 1850 london",
            "undecided",
            {"service_fits": ("for", "moderate")},
        ),
        (
            "1d red imperf late fee franked 1d 1 jun 1850 london",
            "caution",
            {"service_fits": ("against", "moderate")},
        ),
        (
            "1d red imperf late fee 1 jun 1850 leeds",
            "undecided",
            {"service_fits": ("neutral", "none")},
        ),
        # another 1d red was current, which the colour alone makes less likely
        ("1d red 3 june 1918", "undecided", {"date_long_after": ("neutral", "none")}),
        ("1d black cds london 12 mar 1885", "caution", {"date_long_after": ("against", "moderate")}),
        # two face values: neither is taken for the other
        (
            "4d registered 1871 1d red pl 148",
            "undecided",
            {"date_before_issue": ("neutral", "none")},
        ),
        # crosses were numbered 1 to 12: 46 is the other cancel's, and came two years later
        (
            "1d red imperf black mx 12 may 1842 numeral 46",
            "contradicts",
            {"cancel_period": ("against", "strong")},
        ),
        # too little
        ("on cover", "undecided", {}),
        ("", "undecided", {}),
    ],
)
def test_covers(text: str, finding: str, decisive: dict[str, tuple[str, str]]) -> None:
    found, checks = spoken(text)
    assert {name: checks[name] for name in decisive} == decisive
    assert found == finding


def test_every_check_is_answered_and_every_answer_carries_its_source() -> None:
    results = open_case(LIBRARY, "1d red imperf tied black mx leeds 12 mar 1842").found.results
    assert {each.id for each in results} == LIBRARY.postal.checks.keys()
    known = LIBRARY.postal.sources.keys() | LIBRARY.stamps.sources.keys()
    for each in results:
        assert each.reason
        assert each.source in known | {"common practice", "memory"}
        assert each.source != "memory" or each.strength != "strong"


def test_what_is_asked_next() -> None:
    asks = [ask.id for ask in open_case(LIBRARY, "1d black").found.asks]
    assert asks[:3] == ["when", "tied", "cancel"]
    known = open_case(LIBRARY, "1d red imperf tied black mx leeds 12 mar 1842 half ounce franked 1d")
    asks = [ask.id for ask in known.found.asks]
    assert not {"when", "tied", "cancel", "cancel_colour", "town", "ounces", "franking"} & set(asks)
    assert asks.index("tie_continuity") < asks.index("gum_offset")


def test_an_answer_on_the_form_moves_the_finding() -> None:
    case = open_case(LIBRARY, "1d red imperf tied black mx leeds 12 mar 1842")
    worse = case.looked("paper_evidence", "stamp_only")
    assert (case.found.finding, worse.found.finding) == ("consistent", "contradicts")
    assert worse.looked("paper_evidence", "").found.finding == "consistent"
    assert "paper_evidence" not in [ask.id for ask in worse.found.asks]


def test_a_certificate_against_a_contradiction_leaves_a_caution() -> None:
    case = open_case(LIBRARY, "1d red imperf tied numeral york 3 nov 1843")
    assert case.looked("certificate", "genuine").found.finding == "caution"
    assert open_case(LIBRARY, "1d black with certificate").found.finding == "undecided"


def test_the_finding_is_no_certificate_and_goes_with_the_item() -> None:
    case = open_case(LIBRARY, "1d black not tied red mx bath 12 may 1840 to york")
    assert DEFER in case.found.judgement().cautions
    kept = case.facts()
    assert (kept.date, kept.town, kept.to, kept.tied) == ("1840-05-12", "Bath", "York", "not_tied")
    assert kept.finding == WORDS["undecided"]


def test_an_item_of_stock_is_checked_by_what_is_noted_of_it() -> None:
    item = Item(
        number="7",
        issue="penny_red_imperf_alphabet_one",
        letters=("DG",),
        cancel="numeral",
        cancel_colour="black",
        attachment="cover",
        faults=(Fault("thin"),),
        cover=CoverFacts(date="1843-11-03", town="York", to="Canada", tied="tied"),
    )
    case: CoverCase = case_of_item(LIBRARY, item)
    assert case.found.finding == "contradicts"
    assert (case.seen.region, case.seen.to_abroad) == ("england_wales", "Canada")


def test_the_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    text = "1d red imperf tied black mx leeds 12 mar 1842 half ounce"
    assert main(["cover", text, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["finding"] == "consistent"
    assert {"id", "speaks", "strength", "reason", "source", "confidence"} == answer["checks"][0].keys()
    assert {each["speaks"] for each in answer["checks"]} <= {"for", "against", "neutral"}
    assert answer["asks"] and answer["unread"] == []
    assert main(["cover", *text.split()]) == 0
    assert "CONSISTENT" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words",
    [["cover"], ["cover", "  "], ["cover", "x" * 5000], ["rate"], ["rate", "--date", "yesterday"]]
    + [["rate", "--date", "1842", "--ounces", each] for each in ("0", "-1", "much", "1e9")]
    + [["rate", "--date", "1842", "--ounces", "1", "--grams", "1"]]
    + [["rate", "--date", "1842", "--service", "pigeon"], ["rate", "--date", "1842", "--sheets", "½"]]
    + [["rate", "--date", "1842", "--ounces", "1", "--paid", "a lot"]],
)
def test_bad_words_get_one_sentence(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.strip().count("\n") == 0 and said.err.strip()


@pytest.mark.parametrize(
    ("words", "pence", "unit"),
    [
        (["--date", "1842-03-12", "--ounces", "0.5"], 1, "d"),
        (["--date", "1871-10-05", "--ounces", "2"], 1.5, "d"),
        (["--date", "1971-02-15", "--ounces", "4"], 3, "p"),
        (["--date", "1975-09-29", "--grams", "60"], 8.5, "p"),
        (["--date", "1842-03-12", "--ounces", "½", "--unpaid"], 2, "d"),
        (["--date", "1872-01-01", "--ounces", "1", "--service", "registered"], 5, "d"),
        (["--date", "1865-08-01", "--ounces", "¼", "--to", "France"], 4, "d"),
        (["--date", "1835-01-01", "--miles", "100", "--sheets", "2"], 18, "d"),
        (["--date", "1916-01-01", "--ounces", "2"], None, "d"),
        (["--date", "1985-01-01", "--ounces", "2"], None, "p"),
    ],
)
def test_rate_on_the_command_line(
    words: list[str], pence: float | None, unit: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["rate", *words, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert (answer["pence"], answer["unit"], answer["established"]) == (pence, unit, pence is not None)
    assert {"text", "rule", "source", "confidence"} <= answer.keys()


def test_grams_are_weighed_exactly() -> None:
    # the avoirdupois ounce is 28.349523125 g: International Yard and Pound Agreement, 1959
    assert open_case(LIBRARY, "3d wilding 1960 20g").seen.ounces == Fraction(20) / Fraction(
        "28.349523125"
    )
    assert open_case(LIBRARY, "1d red 12 mar 1842 half ounce").seen.ounces == Fraction(1, 2)
