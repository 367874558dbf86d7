"""counter treat, strength and dilute: the shapes that scripts rely on, and the exit codes."""

import json
from dataclasses import fields
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from counter.cli.main import main
from counter.judge.judgement import Reason
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.values.item import Fault, Item
from counter.values.record import write_row

Run = Any


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    def call(*words: str, code: int = 0) -> Any:
        assert main(["--data", str(tmp_path), *words, "--json"]) == code
        out = capsys.readouterr()
        return json.loads(out.out) if code == 0 else out.err

    return call


ALL = "used loose white paper black mx no writing no repairs no certificate"


def test_treat_answers_in_the_promised_shape(run: Run) -> None:
    data = run(
        "treat",
        f"1d black imperf sulphided {ALL}",
        "--with",
        "peroxide_brush",
        "--strength",
        "3 % w/v",
        "--seconds",
        "30",
    )
    assert (data["verdict"], data["disputed"], data["questions"], data["hazards"]) == (
        "with care",
        True,
        [],
        [],
    )
    assert {"recess_black_1840", "cancel_black_oil"} <= set(data["classes"])
    assert all({"code", "text", "source", "confidence"} <= reason.keys() for reason in data["reasons"])
    assert any("safety data sheet" in caution for caution in data["cautions"])


@pytest.mark.parametrize(
    ("line", "words", "verdict"),
    [
        (
            f"1d red imperf sulphided {ALL}",
            ["peroxide_immersion", "--strength", "3 %", "--seconds", "30"],
            "with care",
        ),
        (
            f"1d red imperf sulphided {ALL}",
            ["peroxide_immersion", "--strength", "3 %", "--seconds", "10 min"],
            "never",
        ),
        (f"1d red imperf {ALL}", ["peroxide_immersion", "--strength", "old bottle"], "never"),
        (f"1d red imperf {ALL} thin", ["peroxide_brush", "--strength", "3 %"], "never"),
        (f"1d red pl 148 {ALL}", ["peroxide_brush", "--strength", "20 vol"], "never"),
        (f"2d blue no lines sulphided {ALL}", ["peroxide_brush", "--strength", "3 %"], "with care"),
        (
            f"2d blue no lines {ALL}",
            ["peroxide_brush", "--strength", "3 %"],
            "never",
        ),  # nothing to cure
        ("9d green 1884 used", ["soak_float"], "never"),
        ("6d lilac emblems used", ["soak_float"], "never"),
        (f"1d red imperf {ALL}", ["benzene"], "never"),
        (f"1d red imperf {ALL}", ["benzine"], "with care"),
        (f"1d red imperf {ALL}", ["benzine", "--at-stall"], "never"),
    ],
)
def test_cases_by_name(run: Run, line: str, words: list[str], verdict: str) -> None:
    assert run("treat", line, "--with", *words)["verdict"] == verdict


def test_answers_given_on_the_command_line(run: Run) -> None:
    words = ["treat", "1d red imperf", "--with", "soak_float"]
    before = run(*words)
    assert before["verdict"] == "never" and before["could_be"] == "with care"
    keys = [each["key"] for each in before["questions"]]
    good = {
        "gum": "used",
        "attachment": "loose",
        "paper": "white",
        "cancel": "black",
        "writing": "none",
    }
    good |= {"repair": "none", "certificate": "no", "issue": "penny_red_imperf_alphabet_one"}
    given = [part for key in keys for part in ("--answer", f"{key}={good[key]}")]
    after = run(*words, *given)
    assert (after["verdict"], after["questions"]) == ("with care", [])


@pytest.mark.parametrize("typed", ["WK-12", "wk12", "wk-12"])
def test_a_line_of_stock_by_its_number(run: Run, tmp_path: Path, typed: str) -> None:
    item = Item("WK-12", issue="penny_red_four_letters", gum="used", faults=(Fault("thin"),))
    ledger = Ledger.open(tmp_path, clock=lambda: datetime(2025, 3, 1, tzinfo=UTC))
    ledger.note("item noted", [Change("items", item.number, write_row(item))])
    ledger.close()
    data = run("treat", typed, "--with", "peroxide_brush", "--strength", "3 %")
    assert data["verdict"] == "never" and data["issues"] == ["penny_red_four_letters"]
    assert "thin_tear_crease" in data["classes"]
    assert "WK-13" in run("treat", "WK-13", "--with", "soak_float", code=2).replace("WK13", "WK-13")


def test_a_reason_has_one_shape_in_every_command(run: Run) -> None:
    shape = {each.name for each in fields(Reason)}
    treated = run("treat", "1d red", "--with", "soak_float")["reasons"]
    asked = run("ask", "1d red imperf")["candidates"][0]["for"]
    assert treated and asked and all(set(each) == shape for each in (*treated, *asked))


def test_an_issue_that_is_none_is_no_answer(run: Run) -> None:
    words = ("treat", "1d red", "--with", "soak_float", "--answer")
    assert "There is no issue 'moon'" in run(*words, "issue=moon", code=2)
    assert run(*words, "issue=penny_red_four_letters")["issues"] == ["penny_red_four_letters"]


def test_benzene_is_caught_with_its_statements(run: Run) -> None:
    data = run("treat", "1d red", "--with", "watermark_petroleum_spirit", "--product", "benzene")
    assert data["verdict"] == "never" and {"H340", "H350"} <= set(data["hazards"])


@pytest.mark.parametrize(
    "words",
    [
        ("treat", "1d red", "--with", "lick_it"),
        ("treat", "1d red", "--with", "soak_float", "--seconds", "a while"),
        ("treat", "1d red", "--with", "peroxide_brush", "--strength", "strongish"),
        ("treat", "1d red", "--with", "soak_float", "--answer", "gum=licked"),
        ("treat", "1d red", "--with", "soak_float", "--answer", "gum"),
        ("treat", "1d red", "--with", "soak_float", "--confirm", "trust_me"),
        ("treat", "1d red"),
        ("strength", "banana"),
        ("dilute", "--have", "50 mL of 9 %"),
        ("dilute", "--have", "9 %", "--want", "3 %"),
    ],
)
def test_bad_words_are_one_sentence_and_code_two(run: Run, words: tuple[str, ...]) -> None:
    said = run(*words, code=2)
    assert said.strip() and len(said.strip().splitlines()) == 1


def test_strength(run: Run) -> None:
    data = run("strength", "20 vol")
    assert data["percent_wv"] == pytest.approx(6.07, abs=0.01)  # bp_6: 6 per cent
    assert data["percent_ww"] == pytest.approx(5.95, abs=0.01)
    assert data["mol_per_litre"] == pytest.approx(1.78, abs=0.01)
    assert data["volume"] == pytest.approx(20)
    assert data["hazards"] == ["H319"] and len(data["readings"]) == 2
    unknown = run("strength", "old bottle")
    assert (
        unknown["percent_wv"] is None and unknown["readings"] == [] and unknown["hazards"] == ["H318"]
    )


def test_dilute(run: Run) -> None:
    # who_handrub: 50 mL of 9 % to 3 % takes 100 mL of water, 150 mL in all
    data = run("dilute", "--have", "50 mL of 9 % w/v", "--want", "3 % w/v")
    assert (data["add_water_ml"], data["total_ml"]) == (100.0, 150.0)
    assert run("dilute", "--have", "50 mL of 3 %", "--want", "6 %", code=1).startswith("Water only")


@pytest.mark.parametrize(
    "words", [("treat", f"1d red imperf {ALL}", "--with", "peroxide_brush"), ("strength", "20 vol")]
)
def test_plain_text_names_the_cautions(
    words: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--data", str(tmp_path), *words]) == 0
    assert "goggles" in capsys.readouterr().out


def test_tied_in_the_line_answers_whether_the_stamp_is_tied(run: Run) -> None:
    line = "1d red imperf on cover tied black mx leeds 12 mar 1842"
    data = run("treat", line, "--with", "soak_float")
    assert data["verdict"] == "never" and data["questions"] == []
    told = run("treat", line, "--with", "soak_float", "--confirm", "not_tied", code=2)
    assert "says the opposite" in told


def test_an_issue_that_is_not_settled_is_told_with_what_each_would_be(run: Run) -> None:
    data = run("treat", f"1d lilac {ALL}", "--with", "soak_float")
    assert data["classes"] and data["verdict"] == "never"
    assert [each["issue"] for each in data["if_issue"]] == data["issues"]
    assert {"never", "with care"} <= {each["verdict"] for each in data["if_issue"]}
    assert all(each["classes"] and each["name"] for each in data["if_issue"])
