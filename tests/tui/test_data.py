"""The data files from the screen: bring in, write out, look over, back up, restore, merge, settle."""

from __future__ import annotations

import asyncio
import csv
from collections.abc import AsyncIterator, Coroutine
from contextlib import asynccontextmanager
from datetime import datetime
from pathlib import Path
from threading import Event
from typing import Any

import pytest

from counter.desk.desk import Desk
from counter.desk.opening import open_desk
from counter.store.backup import backup, restore
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.verify import verify
from counter.tui.app import CounterApp
from counter.tui.screens.data_job.paths import complete, read_path
from tests.tui.conftest import LIBRARY, NOW, Stall

LIST = (
    "Stock no,Issue,Plate,Check letters,Details,Retail,LineStore,Status\n"
    "A1,gb_1840_1d_black,6,KC,four margins,£450.00,red,\n"
    "A2,gb_1841_1d_red_brown,,KD,close at left,45,red,\n"
    "A3,gb_1841_1d_red_brown,,KE,a corner [red]gone[/],40,red,missing\n"
    ",gb_1841_1d_red_brown,,,no number,12,blue,\n"
)


def walk(coroutine: Coroutine[Any, Any, None]) -> None:
    asyncio.run(coroutine)


def own(folder: Path) -> Desk:
    return open_desk(folder, library=LIBRARY, clock=lambda: NOW)


@asynccontextmanager
async def counter_over(folder: Path, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Stall]:
    """The counter over a folder of its own."""
    app = CounterApp(lambda: own(folder), log_folder=folder.parent)
    async with app.run_test(size=size) as pilot:
        stall = Stall(app, pilot)
        await stall.said("Stock:")
        yield stall
    if app.desk:
        app.desk.close()


async def path_typed(stall: Stall, path: Path | str) -> None:
    stall.app.screen.query_one("#path").value = str(path)  # type: ignore[attr-defined]
    await stall.pilot.pause()


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return tmp_path / "own"


@pytest.fixture
def csv_file(tmp_path: Path) -> Path:
    path = tmp_path / "list.csv"
    path.write_text(LIST)
    return path


def stocked(folder: Path, *numbers: str) -> None:
    ledger = Ledger.open(folder, clock=lambda: NOW)
    for number in numbers:
        ledger.note("stock noted", [Change("items", number, {"number": number, "asking": 4500})])
    ledger.close()


def test_an_empty_stock_brings_in_a_list_and_finds_it_at_once(mine: Path, csv_file: Path) -> None:
    async def walked() -> None:
        async with counter_over(mine) as stall:
            await stall.said("Ctrl+E")  # an empty stock says how to begin
            await stall.press("ctrl+e", "enter")
            await path_typed(stall, csv_file)
            await stall.press("enter")
            await stall.said("would come in: 3")
            shown = stall.text()
            assert "Retail = asking price" in shown and "Check letters = letters" in shown
            assert "left out" in shown and "LineStore" in shown
            assert "Refused: 1 line" in shown and "line 4" in shown
            assert "status must be one of" in " ".join(shown.split())
            assert not stall.app.desk.ledger.rows("items")  # type: ignore[union-attr]
            await stall.press("enter")
            await stall.said("came in: 3")
            await stall.press("escape", "escape")
            await stall.type("1d blk kc")
            assert any(row.startswith("▸ A1") and "£450.00" in row for row in stall.rows()), (
                stall.text()
            )

    walk(walked())


def test_a_column_is_named_and_looked_over_again(mine: Path, csv_file: Path) -> None:
    async def walked() -> None:
        async with counter_over(mine) as stall:
            await stall.press("ctrl+e", "1")
            await path_typed(stall, csv_file)
            await stall.press("enter")
            await stall.said("would come in: 3")
            await stall.press("f4")
            await stall.said("Which column is what")
            assert "LineStore: red" in stall.text()
            await stall.press("up", "up", "up", "up", "up", "up", *["down"] * 6)
            await stall.type("kept")
            await stall.press("enter", "escape")
            await stall.said("LineStore = kept")
            await stall.press("enter")
            await stall.said("came in: 3")
            desk = stall.app.desk
            assert desk and desk.item("A1").kept == "red"  # type: ignore[union-attr]

    walk(walked())


def test_the_same_file_again_brings_nothing_twice(mine: Path, csv_file: Path) -> None:
    async def walked() -> None:
        async with counter_over(mine) as stall:
            for first in (True, False):
                await stall.press("ctrl+e", "1")
                await path_typed(stall, csv_file)
                await stall.press("enter")
                await stall.said("would come in")
                if first:
                    await stall.press("enter")
                    await stall.said("came in: 3")
                else:
                    assert "came in on 2 May 2026" in stall.text()
                    await stall.press("enter")
                    await stall.said("no line in it that would come in")
                    await stall.press("f5")
                    await stall.said("would come in: 1")
                await stall.press("escape", "escape")
            assert len(stall.app.desk.ledger.rows("items")) == 3  # type: ignore[union-attr]

    walk(walked())


def test_esc_stops_an_import_and_it_goes_on_there(mine: Path, tmp_path: Path) -> None:
    path = tmp_path / "long.csv"
    path.write_text("details\n" + "".join(f"piece {n}\n" for n in range(1700)))
    pressed = Event()

    async def bring_in(stall: Stall) -> None:
        await stall.press("ctrl+e", "1")
        await path_typed(stall, path)
        await stall.press("enter")
        await stall.said("would come in")
        await stall.press("enter")

    async def walked() -> None:
        async with counter_over(mine) as stall:
            ledger = stall.app.desk.ledger  # type: ignore[union-attr]
            ledger.watch(lambda entry: entry.seq < 600 or pressed.wait(10))
            await bring_in(stall)
            await stall.said("Bringing it in")
            await stall.press("f10", "ctrl+o", "f2")  # these wait: nothing is left half-done
            assert "Esc stops it" in stall.text()
            await stall.press("escape")
            pressed.set()
            await stall.said("It was stopped")
            assert len(own_numbers(stall)) == 1000
            await stall.press("escape", "escape")
            await bring_in(stall)
            await stall.said("came in: 700")
            await stall.press("escape", "escape")
            await stall.said("1,700 pieces")
            words = sorted(row["words"] for row in ledger.rows("items"))
            assert words == sorted(f"piece {n}" for n in range(1700))

    walk(walked())
    assert verify(mine).sound


def test_written_out_backed_up_and_looked_over(mine: Path, tmp_path: Path) -> None:
    stocked(mine, "A1", "A2")

    async def walked() -> None:
        async with counter_over(mine) as stall:
            await stall.press("ctrl+e", "2")
            assert "stock-2026-05-02.csv" in stall.text()
            await stall.press("down")
            assert "purchases-2026-05-02.csv" in stall.text()
            await stall.press("up")
            await path_typed(stall, tmp_path / "out.csv")
            await stall.press("enter")
            await stall.said("holds the stock; lines: 2")
            await stall.press("enter")
            await stall.said("is there already")
            await stall.press("escape", "3")
            await stall.said("cross-reference is right")
            assert "2 items" in stall.text()
            await stall.press("escape", "4")
            await path_typed(stall, tmp_path / "b.zip")
            await stall.press("enter")
            await stall.said("written and read back")

    walk(walked())
    with (tmp_path / "out.csv").open(encoding="utf-8-sig") as file:
        rows = list(csv.DictReader(file))
    assert [(row["stock number"], row["asking price"]) for row in rows] == [
        ("A1", "45.00"),
        ("A2", "45.00"),
    ]
    restore(tmp_path / "b.zip", tmp_path / "elsewhere", now=NOW)
    assert verify(tmp_path / "elsewhere").rows == {"items": 2}


def test_a_backup_is_put_back_and_the_present_kept(mine: Path, tmp_path: Path) -> None:
    stocked(mine, "A1")
    backup(mine, tmp_path / "b.zip", now=NOW)
    stocked(mine, "A2")

    async def walked() -> None:
        async with counter_over(mine) as stall:
            await stall.said("2 pieces")
            await stall.press("ctrl+e", "5")
            await path_typed(stall, tmp_path / "b.zip")
            await stall.press("down", "enter")
            await stall.said("Enter again")
            assert len(own_numbers(stall)) == 2
            await stall.press("enter")
            await stall.said("What was there is kept in")
            await stall.press("escape", "escape")
            await stall.said("1 piece,")
            assert own_numbers(stall) == ["A1"]

    walk(walked())
    aside = [path for path in tmp_path.iterdir() if "aside" in path.name]
    assert verify(aside[0]).rows["items"] == 2
    assert verify(mine).sound


def own_numbers(stall: Stall) -> list[str]:
    assert stall.app.desk
    return [row["number"] for row in stall.app.desk.ledger.rows("items")]


def test_what_is_no_backup_leaves_everything_as_it_was(mine: Path, tmp_path: Path) -> None:
    stocked(mine, "A1")
    (tmp_path / "b.zip").write_bytes(b"not a backup")

    async def walked() -> None:
        async with counter_over(mine) as stall:
            await stall.press("ctrl+e", "5")
            await path_typed(stall, tmp_path / "b.zip")
            await stall.press("enter", "enter")
            await stall.said("is not a backup, or is damaged")
            await stall.press("escape", "escape")
            await stall.said("1 piece,")
            await stall.type("bt 1d red pl 148 £5 cash")
            await stall.press("enter")
            await stall.said("Noted as")

    walk(walked())


def test_another_laptop_comes_in_and_both_versions_are_settled(mine: Path, tmp_path: Path) -> None:
    stocked(mine, "A1", "A2")
    backup(mine, tmp_path / "b.zip", now=NOW)
    other = tmp_path / "other"
    restore(tmp_path / "b.zip", other, now=NOW)
    for folder, price in ((mine, 5000), (other, 4000)):
        ledger = Ledger.open(folder, clock=lambda: NOW)
        ledger.note("price changed", [Change("items", "A1", {"number": "A1", "asking": price})])
        ledger.close()

    async def walked() -> None:
        async with counter_over(mine) as stall:
            await stall.press("ctrl+e", "6")
            await path_typed(stall, other)
            await stall.press("enter")
            await stall.said("A1 in items: both changed it")
            await stall.press("escape")
            await stall.said("1 open")
            await stall.press("7")
            await stall.said("1 to settle")
            row = next(row for row in stall.rows() if "asking" in row)
            assert "£50.00" in row and "£40.00" in row
            await stall.press("2")
            await stall.said("Settled: A1")
            assert stall.app.desk.item("A1").asking == 4000  # type: ignore[union-attr]
            await stall.press("ctrl+t")
            await stall.said("1 to settle")
            assert stall.app.desk.item("A1").asking == 5000  # type: ignore[union-attr]

    walk(walked())


def test_a_second_window_says_who_writes_and_follows(mine: Path, csv_file: Path) -> None:
    stocked(mine, "Z1")

    async def walked() -> None:
        writer = Ledger.open(mine, clock=lambda: datetime.fromisoformat("2026-05-02T09:12:00"))
        async with counter_over(mine) as stall:
            await stall.said("Only reading")
            top = " ".join(stall.rows()[:3])
            assert "Only reading" in top and "since 2026-05-02 09:12" in top
            await stall.type("bt 1d red pl 148 £5 cash")
            await stall.press("enter")
            await stall.said("this window only reads. Nothing was noted.")
            await stall.press("escape", "ctrl+e", "1")
            await path_typed(stall, csv_file)
            await stall.press("enter")
            await stall.said("would come in: 3")
            await stall.press("enter")
            await stall.said("Nothing was noted.")
            await stall.press("escape", "escape")
            writer.note("noted", [Change("items", "A9", {"number": "A9", "asking": 100})])
            await stall.said("2 pieces")
        writer.close()

    walk(walked())


HOSTILE = (
    "[/]",
    "[red]x",
    "[@click=app.bell()]x[/]",
    "a\\",
    "é́ 切手 🏷 \u202eabc",
    "\x1b[31m\x07\x00",
    "x" * 300,
)


def test_hostile_paths_are_one_sentence(mine: Path) -> None:
    async def walked() -> None:
        async with counter_over(mine) as stall:
            for number in "12456":
                await stall.press("ctrl+e", number)
                for text in HOSTILE if number == "1" else HOSTILE[::3]:
                    entry = stall.app.screen.query_one("#path")
                    entry.value = ""  # type: ignore[attr-defined]
                    entry.insert_text_at_cursor(f"/nowhere/{text}")  # type: ignore[attr-defined]
                    await stall.press("tab")
                    await stall.said("No name there begins so")
                    await stall.press("enter", *(["enter"] if number == "5" else []))
                    await stall.said("✗")
                    shown = stall.text()
                    assert "\x1b" not in shown and "\x07" not in shown and "\u202e" not in shown
                    assert "fault of the counter" not in shown, shown
                await stall.press("escape", "escape")

    walk(walked())


def test_hostile_cells_and_headings_are_shown_as_text(mine: Path, tmp_path: Path) -> None:
    path = tmp_path / "h.csv"
    path.write_text(
        "[/],price,number,\x1b[31m,\u202eabc\n[red]x,[bold]9,[/],a\\,🏷\n1,2,3\n1,2\n", "utf-8"
    )

    async def walked() -> None:
        async with counter_over(mine) as stall:
            await stall.press("ctrl+e", "1")
            await path_typed(stall, path)
            await stall.press("enter")
            await stall.said("would come in")
            shown = stall.text()
            assert "[/]" in shown and "[bold]9" in shown and "\x1b" not in shown
            await stall.press("f4")
            await stall.said("[/]: [red]x")
            await stall.type("[zz")
            await stall.press("enter")
            await stall.said("none of the numbers")

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
def test_many_refused_lines_scroll(mine: Path, tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "bad.csv"
    path.write_text("number,status\n" + "".join(f"A{n},dear\n" for n in range(3000)))

    async def walked() -> None:
        async with counter_over(mine, size) as stall:
            await stall.press("ctrl+e", "1")
            await path_typed(stall, path)
            await stall.press("enter")
            await stall.said("Refused: 3,000 lines")
            await stall.press("pagedown", "down")
            chosen = next(row for row in stall.rows() if row.startswith("▸ line"))
            assert "line 2 " not in chosen and "not noted: status must" in chosen

    walk(walked())


def test_a_whole_path_behind_the_home_folder_is_that_path(tmp_path: Path) -> None:
    assert read_path(f"~/{tmp_path}", "folder") == tmp_path
    assert complete(f"~/{tmp_path}").path == f"{tmp_path}/"
    assert read_path("~/list.csv", "file") == Path.home() / "list.csv"


def test_a_path_is_completed(tmp_path: Path) -> None:
    for name in ("stock.csv", "stock-old.csv", ".hidden", "bell\x07.csv"):
        (tmp_path / name).touch()
    (tmp_path / "Sales").mkdir()
    found = complete(f"{tmp_path}/st")
    assert found.path == f"{tmp_path}/stock" and found.names == ("stock-old.csv", "stock.csv")
    assert complete(f"{tmp_path}/sa", folders_only=True).path == f"{tmp_path}/Sales/"
    assert complete(f"{tmp_path}/nothing") == type(found)(f"{tmp_path}/nothing", ())
    assert set(complete(f"{tmp_path}/").names) == {"Sales/", "stock-old.csv", "stock.csv"}
    assert complete(f"{tmp_path}/.h").names == (".hidden",)
