"""The ledger's commands as a script calls them: exit codes, JSON, one sentence on stderr."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from counter.cli.main import main
from counter.store.ledger import Ledger
from tests.ledger.stock import item

Runs = Callable[..., tuple[int, Any, str]]


@pytest.fixture
def runs(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Runs:
    def run(*words: str, data: str = "own", as_json: bool = True) -> tuple[int, Any, str]:
        code = main(["--data", str(tmp_path / data), *words, *(["--json"] if as_json else [])])
        said = capsys.readouterr()
        return code, json.loads(said.out) if as_json and said.out else said.out, said.err

    return run


@pytest.fixture
def stock(tmp_path: Path) -> str:
    path = tmp_path / "stock.csv"
    path.write_text("number,price,words,status\nA1,45,1d red,\nA2,oops,2d blue,gone\n,3,penny,\n")
    return str(path)


def test_import_export_verify(runs: Runs, stock: str, tmp_path: Path) -> None:
    code, data, _ = runs("import", stock, "--dry-run")
    assert (code, data["taken"], data["dry_run"]) == (0, 2, True)
    code, data, _ = runs("import", stock)
    assert (code, data["taken"], [each["line"] for each in data["refused"]]) == (0, 2, [3])
    code, data, _ = runs("export", "stock", str(tmp_path / "out.csv"))
    assert (code, data["lines"]) == (0, 2)
    code, data, _ = runs("verify")
    assert (code, data["sound"], data["rows"]["items"]) == (0, True, 2)


def test_words_for_a_person(runs: Runs, stock: str) -> None:
    code, text, _ = runs("import", stock, as_json=False)
    assert code == 0
    assert "Lines that came in: 2; there already: 0; refused: 1." in text
    assert "line 3: The stock item A2 was not noted: status must be" in text
    _, text, _ = runs("verify", as_json=False)
    assert text.rstrip().endswith("Every checksum, number and cross-reference is right.")


def test_backup_restore_merge(runs: Runs, stock: str, tmp_path: Path) -> None:
    runs("import", stock)
    file = str(tmp_path / "b.zip")
    assert runs("backup", file)[0] == 0
    code, data, _ = runs("restore", file, data="second")
    assert (code, data["sound"], data["set_aside"]) == (0, True, None)
    code, _, said = runs("restore", file, data="second")
    assert code == 1
    assert "is not empty" in said
    code, data, _ = runs("restore", file, "--set-aside", data="second")
    assert Path(data["set_aside"]).is_dir()
    code, data, _ = runs("merge", str(tmp_path / "second"))
    assert (code, data["brought"], data["conflicts"]) == (0, 0, [])


def test_a_piece_sold_on_both_laptops_is_settled(runs: Runs, stock: str, tmp_path: Path) -> None:
    runs("import", stock)
    runs("backup", str(tmp_path / "b.zip"))
    runs("restore", str(tmp_path / "b.zip"), data="second")
    for folder, price in (("own", 100), ("second", 200)):
        ledger = Ledger.open(tmp_path / folder, clock=datetime.now)
        ledger.note("sold", [item("A1", status="sold", asking=price)])
        ledger.close()
    assert len(runs("merge", str(tmp_path / "second"))[1]["conflicts"]) == 1
    code, data, _ = runs("conflicts")
    assert (code, [each["id"] for each in data["open"]]) == (0, ["items A1"])
    _, text, _ = runs("conflicts", as_json=False)
    assert "here: asking £1.00" in text and "sold: asking £2.00" in text
    assert runs("conflicts", "items A1")[0] == 2
    assert runs("conflicts", "items A9", "here")[0] == 2
    code, data, _ = runs("conflicts", "items A1", data["open"][0]["versions"][0]["entry"])
    assert (code, data["open"]) == (0, [])
    assert runs("conflicts", as_json=False)[1] == "Nothing is left to settle.\n"


def test_a_damaged_journal_gives_code_1_and_changes_nothing(
    runs: Runs, stock: str, tmp_path: Path
) -> None:
    runs("import", stock)
    path = tmp_path / "own" / "journal"
    path.write_bytes(path.read_bytes().replace(b"1d red", b"2d red"))
    before = path.read_bytes()
    code, data, _ = runs("verify")
    assert (code, data["sound"]) == (1, False)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["import", "none.csv"], 1, "none.csv is not there"),
        (["import", "{stock}", "--map", "price"], 2, "--map wants HEADING=COLUMN"),
        (["import", "{stock}", "--map", "price=beauty"], 2, "There is no stock column 'beauty'"),
        (["export", "people", "x.csv"], 2, "invalid choice"),
        (["backup"], 2, "required: FILE"),
        (["restore", "{stock}"], 1, "is not a backup, or is damaged"),
        (["merge", "nowhere"], 1, "is not there"),
        (["verify"], 1, "is not there"),
    ],
)
def test_what_goes_wrong_is_one_sentence(
    runs: Runs, stock: str, words: list[str], code: int, said: str
) -> None:
    got, _, err = runs(*(word.format(stock=stock) for word in words))
    assert got == code
    assert said in err
    assert err.count("\n") == 1
