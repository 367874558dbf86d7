"""What is the dealer's own never shows unasked: every screen and every command with costs off.

The figures of the stock are such as stand nowhere else, so that one of them on a screen or on stdout
has come from what it is.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from counter.cli.commands import COMMANDS
from counter.cli.main import main
from counter.desk.opening import open_desk
from counter.desk.stock.item_from_text import read_piece
from counter.tui.app import CounterApp
from counter.tui.navigation import SCREENS
from tests.benchmarks.all_screens import given, home
from tests.tui.conftest import LIBRARY, NOW, Stall
from tests.tui.test_sale import walk

PIECE = "1d red imp pl 33 {} 4 margins black mx"
LINE = PIECE.format("KC")
COSTS = ("317.31", "323.37", "331.73", "337.13")
SOLD = ("1731.37", "1737.31", "1771.13")
ASKED = "1797.79"
#: The papers of one deal are the other side's too: what that side paid, or was paid, may stand there.
THEIR_OWN = {"after_sale": SOLD, "put_right": SOLD, "invoice": (*SOLD, COSTS[0])}
#: Keys that show more of the stock than a screen's first look, and stay on it.
KEYS = {
    "item": ("f4", "enter"),
    "stock_book": ("tab",),
    "sales": ("enter",),
    "price_in_hand": ("enter",),
}


def pounded(pence: int | None) -> str:
    assert pence
    return f"{pence / 100:,.2f}"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four pieces bought, three of them sold, one in stock at a price of its own."""
    return tmp_path_factory.mktemp("own") / "data"


@pytest.fixture(scope="module")
def secrets(folder: Path) -> set[str]:
    """The stock noted; and every figure of it that is the dealer's own."""

    def run(*words: str) -> Any:
        return told(folder, *words, "--json")[1]

    run("house", "--set", "name=A. Dealer", "vat_number=GB 1", "registered_from=2020-01-01")
    for letters, cost in zip(("KC", "KD", "KE", "KF"), COSTS, strict=True):
        run("buy", f"{PIECE.format(letters)} £{cost} cash Harrow", "--date", "2026-01-05")
    for place, price in enumerate(SOLD, 1):
        name = f"--buyer=Buyer {place}"
        run(
            "sell",
            f"{number(run, place)}={price}",
            "--date",
            f"2026-03-1{place}",
            name,
            "--paid",
            f"card={price}",
        )
    desk = open_desk(folder, library=LIBRARY, clock=lambda: NOW)
    from counter.desk.stock.edit_item import save_field

    desk.index_all()
    save_field(desk, number(run, 4), "asking", ASKED)
    desk.close()
    made = run("price", number(run, 4), "--costs")
    of_price = {made["suggestion"], made["marked"], made["floor"], made["offer"]["price"]}
    of_price |= {made["low"], made["high"], made["offer"]["haggled"]["price"]}
    figures = {pounded(each) for each in of_price} | {f"{float(each):,.2f}" for each in (*COSTS, *SOLD)}
    book = run("book", "--from", "2026-01-01", "--to", "2026-05-02")["totals"]
    figures |= {pounded(book[name]) for name in ("vat_on_margins", "box_1")}
    assert len(figures) > 12
    return figures


def number(run: Any, place: int) -> str:
    items = run("ask", LINE)["stock"]
    return sorted(each["number"] for each in items)[place - 1]


def told(folder: Path, *words: str) -> tuple[str, Any]:
    """What a command prints, and as JSON where it is that."""
    import contextlib
    import io

    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert main(["--data", str(folder), *words]) == 0, words
    text = out.getvalue()
    return text, json.loads(text) if "--json" in words else None


def seen(text: str, secrets: set[str]) -> list[str]:
    return [each for each in secrets if each in text]


def commands(folder: Path) -> Iterator[list[str]]:
    """Every command that reads the stock or the deals, and the notes of a deal."""
    item = sorted(each["number"] for each in told(folder, "ask", LINE, "--json")[1]["stock"])[3]
    prefix = item.partition("-")[0]
    day = ["--date", "2026-05-02"]
    yield from (
        ["ask", LINE],
        ["price", item],
        ["price", LINE],
        ["price", item, "--at", "50", "--profit", "5%"],
    )
    yield from (["book", "--from", "2026-01-01", "--to", "2026-05-02"], ["owed"], ["people"], ["house"])
    yield from (["accounts", "2026"], ["accounts", "--on", "2026-05-02"], ["filed"], ["fair"])
    yield from (["people", f"{prefix}-N1"], ["people", f"{prefix}-N2"], ["verify"])
    yield from (["close-day", *day], ["close-day", "--date", "2026-01-05"])
    yield from (
        ["export", kind, str(folder / f"{kind}.csv")] for kind in ("stock", "purchases", "sales")
    )
    yield from (
        ["backup", str(folder.parent / "kept.zip")],
        ["treat", item, "--with", "float"],
        ["cover", LINE],
    )
    yield from (
        ["quote", item],
        ["quote", "--find", "1"],
        ["conflicts"],
    )
    yield ["sell", f"{item}=1", *day, "--agreed"]


def test_no_command_prints_what_is_the_dealers_own(folder: Path, secrets: set[str]) -> None:
    ran, leaks = set(), []
    for words in commands(folder):
        text, _ = told(folder, *words)
        ran.add(words[0])
        leaks += [f"{words}: {each}\n{text}" for each in seen(text, secrets)]
    assert not leaks, "\n".join(leaks)
    text, _ = told(folder, "price", LINE, "--costs")
    assert seen(text, secrets)  # asked for, it is there
    # these read nothing of the ledger, write a deal whose own words they say back, or are a customer's paper
    rest = {
        "buy",
        "card",
        "compare",
        "dilute",
        "gauge",
        "import",
        "invoice",
        "letters",
        "lot",
        "margin",
        "merge",
    }
    rest |= {"correct", "cost", "rate", "restore", "settle", "split", "strength"}
    assert ran | rest == {each.name for each in COMMANDS}


def asked_for(app: CounterApp, name: str) -> Any:
    """What a screen asks for, of this stock."""
    if name == "price_in_hand":
        return lambda: (app.desk, read_piece(LINE, LIBRARY))
    return given(app, name)


def test_no_screen_shows_what_is_the_dealers_own(folder: Path, secrets: set[str]) -> None:
    async def walked() -> None:
        app = CounterApp(lambda: open_desk(folder, library=LIBRARY, clock=lambda: NOW), theme="night")
        async with app.run_test(size=(120, 40)) as pilot:
            stall = Stall(app, pilot)
            await stall.wait_for("pieces")
            await stall.type(LINE)
            shown, leaks = set(), []
            for name in SCREENS:
                make = (lambda: ()) if name == "counter" else asked_for(app, name)
                if make is None:
                    continue
                for key in ("", *KEYS.get(name, ())):
                    await home(app, pilot)
                    if name != "counter":
                        app.open_screen(name, *make())
                    await pilot.pause()
                    if key:
                        await pilot.press(key)
                    await app.workers.wait_for_complete()
                    await pilot.pause()
                    found = set(seen(stall.text(), secrets))
                    for theirs in THEIR_OWN.get(app.screen.NAME, ()):  # type: ignore[attr-defined]
                        found.discard(f"{float(theirs):,.2f}")
                    if found:
                        leaks.append(f"{name}, {key}: {found}\n{stall.text()}")
                    shown.add(name)
            assert not leaks, "\n".join(leaks)
            assert len(shown) > 30
            # asked for with the one key, they are there
            for name in ("item", "stock_book", "sales", "price_in_hand", "day"):
                await home(app, pilot)
                make = asked_for(app, name)
                assert make
                app.open_screen(name, *make())
                await pilot.pause()
                await pilot.press("f8")
                await app.workers.wait_for_complete()
                await pilot.pause()
                assert name == "day" or seen(stall.text(), secrets), stall.text()
        if app.desk:
            app.desk.close()

    walk(walked())
