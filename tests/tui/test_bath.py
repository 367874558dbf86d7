"""A bath that cannot be forgotten: on every screen, past zero, across a kill; by passed-in clocks."""

import asyncio
import os
import re
import subprocess
import sys
import textwrap
import time
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from counter.store.ledger import Ledger
from counter.tui.screens.treatment_timer.digits import large
from counter.tui.screens.treatment_timer.telling import order_words
from counter.values.item import Item
from counter.values.record import read_record
from tests.benchmarks.terminal import Terminal
from tests.tui.bath_stall import STAGES, Clocks, open_own, plan, stocked
from tests.tui.conftest import Stall

ROOT = Path(__file__).resolve().parents[2]
BLOCKS = set("█▀▄")


def walk(coroutine):
    return asyncio.run(coroutine)


def begun(folder: Path, clocks: Clocks, *numbers: str) -> None:
    """Baths begun in another sitting, which was closed without a word."""
    from counter.trade.treatment_log import Baths

    ledger = Ledger.open(folder, clock=lambda: clocks.wall)
    baths = Baths(ledger, monotonic=lambda: clocks.ticks, wet={"peroxide_brush"})
    for number in numbers:
        baths.start(plan(number))
    ledger.close()


async def looked(stall: Stall, times: int = 1) -> None:
    """Let the screen look at the clock again."""
    for _ in range(times):
        if stall.app.baths:  # type: ignore[attr-defined]
            stall.app.baths.look()  # type: ignore[attr-defined]
        await stall.pilot.pause()


async def answered(stall: Stall, number: str) -> None:
    """Brushing with 3 % for 20 s: every question answered well, the words for the record typed."""
    await stall.type(number)
    await stall.press("f6")
    assert number in stall.rows()[0]  # the heading says what is judged
    await stall.type("peroxide")
    await stall.press("enter")
    await stall.press("f7")
    assert "never, so it is not guided" in " ".join(stall.text().split())
    for _ in range(8):  # the first choice of each question is the harmless one
        field = stall.app.screen.query_one("Form").chosen  # type: ignore[attr-defined]
        if field is None or not field.choices:
            break
        await stall.press("1", "enter")
    await stall.type("3 % w/v")
    await stall.press("enter", "down")
    await stall.type("20 s")
    await stall.press("enter")
    await stall.type("red cross gone brown")
    await stall.press("enter")
    await stall.type("A. N.")
    await stall.press("enter")
    assert "! with care" in stall.rows()[1]


def test_a_guided_run_from_the_stock_to_its_record(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    clocks = Clocks()

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            await answered(stall, number)
            await stall.press("f7")
            await stall.press("enter")
            assert "checks are not ticked" in stall.text()
            for digit in "1234567890":
                await stall.press(digit)
            await stall.press("enter")
            assert "Brush: paint only the dark ink" in stall.text() and "of 0:20" in stall.text()
            clocks.go(20)
            await looked(stall)
            assert "RINSE NOW: over by 0:00" in stall.text()
            clocks.go(12)
            await looked(stall)
            assert "over by 0:12" in stall.text()
            await stall.press("enter")
            assert "Rinsed, after 32 s: noted." in stall.text()
            for _ in range(3):  # three waters
                clocks.go(120)
                await looked(stall)
                assert "TIME IS UP" in stall.text()
                await stall.press("enter")
            assert "Dry between blotters" in stall.rows()[-8] or "stage 5 of 5" in stall.text()
            await stall.press("enter")
            await stall.type("cross red again [/]")
            await stall.press("enter")
            assert "Done and noted" in stall.text()
            await looked(stall)
            assert stall.app.baths is None  # type: ignore[attr-defined]
            desk = stall.app.desk  # type: ignore[attr-defined]
            (done,) = desk.item(number).treatments
            assert (done.treatment, done.strength, done.seconds) == ("peroxide_brush", "3 % w/v", 32)
            assert (done.before, done.after) == ("red cross gone brown", "cross red again [/]")
            assert (done.product, done.by, done.date) == ("peroxide", "A. N.", "2026-05-02")
            await stall.press("escape")
            assert "✗ never" in stall.rows()[1]  # nothing wet twice on one day

    walk(walked())


def test_it_stands_first_on_every_screen(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    clocks = Clocks()
    begun(tmp_path, clocks, number)
    clocks.go(16)

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            assert "look at it in 4 s" in stall.text()  # the bath screen comes first
            await stall.press("escape")
            for keys in (("f1",), ("f2",), ("f3",), ("f6",), ("f6", "enter"), ("f6", "f6")):
                await stall.press(*keys)
                await looked(stall)
                bar = stall.rows()[0]
                assert number in bar and "0:14 left" in bar, stall.text()
                await stall.press(*("escape" for _ in keys))
            clocks.go(14 + 133)
            await looked(stall)
            assert "OVER by 2:13" in stall.rows()[0] and "rinse now" in stall.rows()[0].lower()
            await stall.press("ctrl+r")
            assert "over by 2:13" in stall.text() and number in stall.rows()[0]

    walk(walked())


def test_closing_warns_first_and_the_bath_goes_on(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    clocks = Clocks()
    begun(tmp_path, clocks, number)

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            await stall.press("ctrl+o")  # the demo would put this bath out of sight
            assert "see it through" in stall.text() and number in stall.rows()[0]
            await stall.press("f10")
            assert "goes on by the clock: F10 again" in " ".join(stall.text().split())
            assert stall.app.is_running and stall.app.return_value is None
            await stall.press("f10")
            assert not stall.app.is_running or stall.app._exit
        clocks.go(95, asleep=True)
        async with open_own(tmp_path, clocks) as stall:
            assert "over by 1:05" in stall.text()

    walk(walked())


def test_words_change_at_zero_and_the_bell_can_be_muted(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    clocks = Clocks()
    begun(tmp_path, clocks, number)

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            rung: list[int] = []
            stall.app.bell = lambda: rung.append(1)  # type: ignore[method-assign]
            clocks.go(29)
            await looked(stall)
            assert not rung
            clocks.go(1)
            await looked(stall)
            assert len(rung) == 1
            said = set()
            for _ in range(4):
                await looked(stall)
                said |= set(re.findall(r"(TAKE IT OUT|STILL WORKING)", stall.text()))
            assert said == {"TAKE IT OUT", "STILL WORKING"}  # they flash by turns
            await looked(stall, 16)
            assert len(rung) > 1  # it rings again until it is rinsed
            await stall.press("f5")
            assert "muted" in stall.text()
            heard = len(rung)
            await looked(stall, 40)
            assert len(rung) == heard

    walk(walked())


def test_several_baths_by_their_digits(tmp_path: Path) -> None:
    first = stocked(tmp_path)
    second = first[:-1] + str(int(first[-1]) + 1)
    clocks = Clocks()
    begun(tmp_path, clocks, first)
    clocks.go(20)
    begun(tmp_path, clocks, second)
    clocks.go(15)

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            assert first in stall.rows()[0] and "over by 0:05" in stall.text()
            await stall.press("2")
            assert second in stall.rows()[0] and "0:15 left" in stall.text()
            assert "OVER by 0:05" in stall.text()  # the other one stays in sight
            await stall.press("1", "enter")
            assert "Now: First water" in stall.text()
            await stall.press("2", "ctrl+x")
            assert "Only if it never went into the liquid" in stall.text()
            await stall.press("enter")
            assert "Say why" in stall.text()
            await stall.type("wrong stamp")
            await stall.press("enter")
            assert "Abandoned" in stall.text() and first in stall.rows()[0]
            desk = stall.app.desk  # type: ignore[attr-defined]
            assert desk.item(second).treatments == ()

    walk(walked())


def test_time_left_is_asked_about_before_it_is_cut_short(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    clocks = Clocks()
    begun(tmp_path, clocks, number)
    clocks.go(10)

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            await stall.press("enter")
            assert "press Enter again" in stall.text()
            (now,) = stall.app.desk.baths.running()  # type: ignore[attr-defined]
            assert now.bath.stage == 0
            await stall.press("enter")
            (now,) = stall.app.desk.baths.running()  # type: ignore[attr-defined]
            assert (now.bath.stage, now.bath.worked) == (1, 10)

    walk(walked())


def test_a_clock_set_back_counts_as_up_and_says_so(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    clocks = Clocks()
    begun(tmp_path, clocks, number)
    clocks.wall -= timedelta(hours=1)

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            assert "RINSE NOW" in stall.text() and "clock was set back" in stall.text()

    walk(walked())


def test_drying_is_told_but_calls_nobody(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    clocks = Clocks()
    ledger = Ledger.open(tmp_path, clock=lambda: clocks.wall)
    from counter.trade.treatment_log import Baths

    baths = Baths(ledger, monotonic=lambda: clocks.ticks, wet=set())
    bath = baths.start(plan(number))
    for _ in STAGES[1:]:
        baths.next_stage(bath.id)
    ledger.close()
    clocks.go(3600)

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            await looked(stall)
            assert "23 h 00 min left" in stall.rows()[0] and "ask ▸" in stall.text()

    walk(walked())


def test_a_lamp_and_a_weight_are_timed_too(tmp_path: Path) -> None:
    stocked(tmp_path)
    clocks = Clocks()

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            await stall.type("1d black used loose")
            await stall.press("f6")
            await stall.type("long-wave")
            await stall.press("enter", "f7", "1", "enter")
            clocks.go(11)
            await looked(stall)
            assert "TIME IS UP" in stall.text() and "stage 1 of 1" in stall.text()
            await stall.press("enter", "enter")
            assert "Done and noted" in stall.text()
            await stall.press("escape", "escape", "ctrl+u")
            await stall.type("press flat")
            await stall.press("enter", "f7")
            assert "Nothing to tick" in stall.text()
            await stall.press("down", "space", "5", "enter")
            assert "24 h 00 min" in stall.text() or "24:00:00" in stall.text()

    walk(walked())


def test_nothing_is_loaded_or_timed_while_no_bath_runs(tmp_path: Path) -> None:
    stocked(tmp_path)
    code = (
        "import counter.tui.app, sys; print('counter.tui.screens.treatment_timer.watch' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True)
    assert said.stdout.strip() == "False", said.stderr

    async def walked() -> None:
        async with open_own(tmp_path, Clocks()) as stall:
            assert stall.app.baths is None  # type: ignore[attr-defined]
            assert not stall.app.screen.query("BathBar")

    walk(walked())


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
@pytest.mark.parametrize("theme", ["night", "day", "sixteen"])
def test_the_clock_is_large_and_words_carry_everything(
    tmp_path: Path, size: tuple[int, int], theme: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    if theme == "sixteen":
        monkeypatch.setenv("NO_COLOR", "1")
    number = stocked(tmp_path)
    clocks = Clocks()
    begun(tmp_path, clocks, number)
    clocks.go(102)

    async def walked() -> None:
        async with open_own(tmp_path, clocks, size, theme) as stall:
            drawn = [row for row in stall.rows() if BLOCKS & set(row) and "of 0:30" not in row]
            assert len(drawn) >= (8 if size[1] == 24 else 15)
            assert "over by 1:12" in stall.text() and "1:42 of 0:30" in stall.text()
            assert "conservator come first" in stall.text()

    walk(walked())


def test_large_figures() -> None:
    for width in range(50, 201, 15):
        lines = large("+12:34", width, 12)
        assert 5 <= len(lines) <= 12 and max(map(len, lines)) <= width
    shapes = {tuple(large(figure, 20, 5)) for figure in "0123456789"}
    assert len(shapes) == 10  # no two alike


def test_more_than_an_hour_is_drawn_too() -> None:
    assert max(map(len, large("23:59:59", 76, 10))) <= 76


def test_orders_are_never_the_same_twice_running() -> None:
    from counter.store.records.bath import Bath
    from counter.trade.treatment_clock import countdown

    bath = Bath("B-1", "", "peroxide_brush", "2026-05-02T10:00:00+01:00", stages=STAGES)
    now = countdown(bath, 75.0)
    assert order_words(now, True) != order_words(now, False)
    assert "0:45" in order_words(now, True) and "0:45" in order_words(now, False)


_APP = """
    import sys
    from pathlib import Path
    from counter.desk.opening import open_desk
    from counter.reference.library import Library
    from counter.tui.start import start

    start(lambda: open_desk(Path(sys.argv[1]), library=Library()))
"""


@pytest.mark.skipif(os.name != "posix", reason="SIGKILL and pseudo-terminals are POSIX")
def test_killed_in_the_middle_of_a_bath_the_alarm_stands_on_return(tmp_path: Path) -> None:
    number = stocked(tmp_path)
    started = datetime.now().astimezone()
    clocks = Clocks(started, time.monotonic())
    begun(tmp_path, clocks, number)
    terminal = Terminal([sys.executable, "-c", textwrap.dedent(_APP), str(tmp_path)], 100, 30)
    try:
        terminal.wait_for(b"look at it in")  # the app runs and shows the bath
    finally:
        terminal.close()  # SIGKILL: no chance to say goodbye
    clocks.wall, clocks.ticks = started + timedelta(seconds=75), 3.0  # another boot: ticks start anew

    async def walked() -> None:
        async with open_own(tmp_path, clocks) as stall:
            assert number in stall.rows()[0]
            assert "RINSE NOW" in stall.text() and "over by 0:45" in stall.text()
            await stall.press("escape")
            await looked(stall)
            assert "OVER by 0:45" in stall.rows()[0]
            await stall.press("ctrl+r", "enter")
            row = stall.app.desk.ledger.row("items", number)  # type: ignore[attr-defined]
            (done,) = read_record(Item, dict(row)).treatments
            assert done.seconds == 75  # what the buyer is told

    walk(walked())


def test_without_a_bath_the_screen_says_how_one_begins(tmp_path: Path) -> None:
    async def walked() -> None:
        async with open_own(tmp_path, Clocks()) as stall:
            await stall.press("ctrl+r")
            assert stall.text().count("No bath is running") == 1
            assert "To begin one: F6" in stall.text()
            assert not any(words in stall.rows()[-1] for words in ("rinsed", "bell", "abandon"))

    asyncio.run(walked())
