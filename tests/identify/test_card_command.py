"""`counter card ID` for scripts and for people."""

import json

import pytest

from counter.cli.main import main


def test_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["card", "qv_4d_1855_small_garter", "--json"]) == 0
    card = json.loads(capsys.readouterr().out)
    assert card["id"] == "qv_4d_1855_small_garter"
    assert card["name"] == "4d carmine, small garter, 1855"
    lines = {line["label"]: line for line in card["lines"]}
    assert lines["watermark"]["text"] == "small garter"
    assert lines["watermark"]["source"] == "memory"
    assert lines["colours"]["confidence"] == "memory"
    assert lines["told from"]["source"] == "common practice"
    assert card["sources"]["mag_4d"].startswith("Guide to the Victorian 4d")


def test_json_dates_are_iso(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["card", "penny_black_1840", "--json"]) == 0
    dates = json.loads(capsys.readouterr().out)["dates"]
    assert dates == {
        "first_issued": "1840-05-01",
        "valid_from": "1840-05-06",
        "superseded": "1841-02-10",
    }


def test_text(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["card", "penny_black_1840"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("1d black, 1840\n")
    assert "1 May 1840, valid from 6 May 1840, to 10 February 1841" in out


def test_an_unknown_id_is_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["card", "peny_black_1840"]) == 2
    wrong = capsys.readouterr().err
    assert wrong == "There is no issue 'peny_black_1840'; an id looks like penny_black_1840.\n"


def test_plain_words_lead_to_the_ids_they_may_mean(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["card", "penny black"]) == 2
    assert "looks like penny_black_1840." in capsys.readouterr().err
