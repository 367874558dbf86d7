"""A plate as a sheet: what is held, doubled, missing and once joined; pieces entered by the hundred."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path

import pytest

from counter.cli.main import main
from counter.judge.letters import plate_sheet
from counter.reference.library import Library
from counter.values.item import Item
from tests.tui.conftest import open_stall

BLACK = Library().stamps.issues["penny_black_1840"]


def piece(number: str, *letters: str, plate: str = "9", status: str = "in stock") -> Item:
    return Item(number, issue=BLACK.id, plate=plate, letters=letters, status=status)  # type: ignore[arg-type]


def test_held_doubled_missing_and_once_joined() -> None:
    """The sheet of the 1d is 20 rows of 12 (pennyreds study): KD is right of KC, LC below it."""
    stock = [
        piece("A", "KC"),
        piece("B", "KC"),
        piece("C", "KD"),
        piece("D", "LC", "LD"),
        piece("E", "TL", plate="8"),
        piece("F", "AA", status="sold"),
        piece("G", "UA"),
    ]
    found = plate_sheet(BLACK, "9", stock)
    assert found.held == {"KC": ("A", "B"), "KD": ("C",), "LC": ("D",), "LD": ("D",)}
    assert found.doubled == ("KC",) and len(found.missing) == 236 and found.outside == ("G",)
    pairs = {each.numbers for each in found.joined}
    assert pairs == {("A", "C"), ("B", "C"), ("A", "D"), ("B", "D"), ("C", "D")}


def test_the_held_and_the_missing_are_the_sheet() -> None:
    whole = [piece(f"N{n}", f"{chr(65 + n // 12)}{chr(65 + n % 12)}") for n in range(0, 240, 7)]
    found = plate_sheet(BLACK, "9", whole)
    assert len(found.held) + len(found.missing) == 240
    assert sum(row.count("■") for row in found.drawn()) == len(whole)


def entered(folder: Path, lines: str, capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    file = folder / "plate.txt"
    file.write_text(lines, encoding="utf-8")
    code = main(["letters", "--enter", str(file), "--json", "--data", str(folder / "books")])
    told = capsys.readouterr()
    return code, told.out or told.err


def test_several_hundred_pieces_of_a_plate_each_with_its_number(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    places = [f"{chr(65 + n // 12)}{chr(65 + n % 12)} 4m red" for n in range(240)]
    code, told = entered(tmp_path, f"pl 9: {', '.join(places)}, KC 3m black thin", capsys)
    data = json.loads(told)
    assert code == 0 and len(set(data["entered"])) == 241
    assert data["missing"] == [] and data["doubled"] == ["KC"]


def test_a_piece_keeps_what_was_said_of_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    entered(tmp_path, "pl 9: KC 4m red, MF 3m black thin", capsys)
    assert main(["ask", "1d black pl 9", "--json", "--data", str(tmp_path / "books")]) == 0
    lines = [each["line"] for each in json.loads(capsys.readouterr().out)["stock"]]
    assert any("pl 9 KC, 4 margins, red MX" in line for line in lines)
    assert any("MF, 3 margins" in line and "thin" in line for line in lines)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("pl 9: KC 4m, 4 margins", "No letters are read"),
        ("pl 9: KC 4m, UA red", "has no"),
        ("pl 99: KC 4m", "has no plate 99"),
        ("KC 4m red", "begins with no plate"),
        ("", "no piece in it"),
    ],
)
def test_one_piece_that_cannot_be_and_none_is_entered(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], line: str, why: str
) -> None:
    code, told = entered(tmp_path, line, capsys)
    assert code == 2 and why in told
    assert main(["letters", "--plate", "9", "--json", "--data", str(tmp_path / "books")]) == 0
    assert json.loads(capsys.readouterr().out)["held"] == {}


def test_the_screen_shows_the_plate_with_the_stock_on_it() -> None:
    async def walked() -> None:
        async with open_stall() as stall:
            from counter.desk.stock.plate_entry import enter_pieces, read_plate_lines

            desk = stall.app.desk  # type: ignore[attr-defined]
            enter_pieces(desk, read_plate_lines("pl 9: MF 4m, MG 3m, MG 2m", BLACK, LIBRARY))
            await stall.type("1d black imperf pl 9 KC")
            await stall.press("f4")
            await stall.wait_for("Look closer")
            await stall.press("tab")
            await stall.wait_for("in stock (▪)")
            assert "doubled MG" in " ".join(" ".join(row[29:].split()) for row in stall.rows())

    LIBRARY = Library()
    asyncio.run(walked())
