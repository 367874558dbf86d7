"""The counter wrong-footed: one clear sentence each time, nothing lost, the exit code right."""

from __future__ import annotations

import asyncio
import os
import signal
import subprocess
import sys
import textwrap
import time
from collections.abc import AsyncIterator, Callable, Coroutine
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from textual import events

from counter.describe.names import issue_names
from counter.desk.desk import Desk
from counter.desk.opening import open_desk
from counter.reference import loader
from counter.reference.library import Library
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.verify import verify
from counter.tui.app import CounterApp
from counter.tui.screens.counter.bought_pane import BoughtPane
from tests.ledger.stock import BadDisk
from tests.tui.conftest import LIBRARY, NOW, Stall

ROOT = Path(__file__).resolve().parents[2]
posix = pytest.mark.skipif(os.name != "posix", reason="needs signals, ptys and users")
BOUGHT = "bt 1d red pl 148 £5 cash"


def walk(coroutine: Coroutine[Any, Any, None]) -> None:
    asyncio.run(coroutine)


@asynccontextmanager
async def counter_with(opener: Callable[[], Desk], logs: Path | None = None) -> AsyncIterator[Stall]:
    app = CounterApp(opener, log_folder=logs)
    try:
        async with app.run_test(size=(80, 24)) as pilot:
            yield Stall(app, pilot)
    finally:
        if app.desk:
            app.desk.close()


def over(
    folder: Path, disk: BadDisk | None = None, clock: Callable[[], datetime] = lambda: NOW
) -> Desk:
    ledger = Ledger.open(folder, clock=clock, disk=disk)
    return Desk(LIBRARY, ledger, issue_names(LIBRARY.stamps), clock=clock)


def numbers(folder: Path) -> list[str]:
    ledger = Ledger.open(folder, clock=lambda: NOW, read_only=True)
    try:
        return [row["number"] for row in ledger.rows("items")]
    finally:
        ledger.close()


def stocked(folder: Path, *names: str) -> None:
    ledger = Ledger.open(folder, clock=lambda: NOW, laptop="WK")
    for name in names:
        ledger.note("stock noted", [Change("items", name, {"number": name, "asking": 4500})])
    ledger.close()


def test_a_terminal_resized_in_the_middle_of_a_line(tmp_path: Path) -> None:
    async def walked() -> None:
        async with counter_with(lambda: over(tmp_path / "own")) as stall:
            await stall.said("Stock: 0 pieces")
            for place, (width, height) in enumerate([(200, 60), (40, 10), (20, 5), (8, 3), (80, 24)]):
                await stall.type(BOUGHT[place * 5 : place * 5 + 5])
                await stall.pilot.resize_terminal(width, height)
                await stall.pilot.pause()
            assert stall.app.screen.query_one("#ask").value == BOUGHT  # type: ignore[attr-defined]
            await stall.press("enter")
            await stall.said("Noted as")

    walk(walked())
    assert len(numbers(tmp_path / "own")) == 1


PASTES = (
    "1d blk KC\n" * 10_000,
    "[/][red]" * 13_000,
    "x" * 100_000,
    "\x1b[31m\x00" * 20_000,
    "אב切🏷" * 25_000,
)


def test_a_hundred_thousand_characters_pasted(tmp_path: Path) -> None:
    async def walked() -> None:
        async with counter_with(lambda: over(tmp_path / "own")) as stall:
            await stall.said("Stock: 0 pieces")
            for paste in PASTES:
                assert len(paste) >= 100_000 or len(paste.encode()) >= 100_000
                stall.app.screen.query_one("#ask").focus()
                stall.app.post_message(events.Paste(paste))
                await stall.said("A line holds 2000 characters; the rest of the paste was left out.")
                assert "\x1b" not in stall.text()
                await stall.press("escape")
            await stall.type("1d red")
            await stall.said("1d")

    walk(walked())


def test_a_stock_of_nothing(tmp_path: Path) -> None:
    async def walked() -> None:
        async with counter_with(lambda: over(tmp_path / "own"), tmp_path) as stall:
            await stall.said("Three ways to begin")
            for key in (
                "f3",
                "f4",
                "f5",
                "f6",
                "f7",
                "f8",
                "f9",
                "ctrl+e",
                "ctrl+t",
                "enter",
                "f1",
                "f2",
            ):
                await stall.press(key, "down", "up", "tab", "pagedown", "escape", "escape", "escape")
                assert stall.app.is_running
            await stall.said("Three ways to begin")

    walk(walked())
    assert not list(tmp_path.glob("crash-*"))


def test_a_journal_damaged_in_the_middle_is_told_and_the_rest_is_there(tmp_path: Path) -> None:
    own = tmp_path / "own"
    stocked(own, "A1", "A2", "A3")
    journal = own / "journal"
    journal.write_bytes(journal.read_bytes().replace(b'"A2"', b'"AX"'))

    async def walked() -> None:
        async with counter_with(lambda: over(own)) as stall:
            await stall.said("Stock: 2 pieces")
            await stall.said("A line of the journal (at byte")
            await stall.said("is damaged and was passed over")
            await stall.press("down")
            assert "passed over" not in stall.text()  # told once
            await stall.press("ctrl+e", "3")
            await stall.said("✗ An entry of the journal is damaged, from byte")
            await stall.said("nothing was changed")

    walk(walked())


def test_a_torn_last_line_is_set_aside_and_told(tmp_path: Path) -> None:
    own = tmp_path / "own"
    stocked(own, "A1")
    with (own / "journal").open("ab") as file:
        file.write(b"0123456789abcdef {half")

    async def walked() -> None:
        async with counter_with(lambda: over(own)) as stall:
            await stall.said("The last entry was never finished")
            assert "Stock: 1 piece" in stall.text()

    walk(walked())
    assert [path.read_bytes() for path in (own / "aside").iterdir()] == [b"0123456789abcdef {half"]


class BrokenLibrary(Library):
    """A reference one of whose files was edited into nonsense."""

    def __init__(self, subject: str, data: Path) -> None:
        self.subject = subject
        self.data = data

    def __getattribute__(self, name: str) -> Any:
        if name == object.__getattribute__(self, "__dict__").get("subject"):
            tables = loader.read_folder(name, object.__getattribute__(self, "data"))
            loader.build_all(Shape, tables, "records", "record")
        return super().__getattribute__(name)


@dataclass(frozen=True, slots=True)
class Shape:
    """A record such as data files hold."""

    id: str
    year: int


WRONG_TYPE = '[[record]]\nid = "a"\nyear = "soon"\n'
TOLD = "records.toml [[record]] a.year: 'soon' is not int"


@pytest.mark.parametrize(
    ("subject", "text", "sentence"),
    [
        ("stamps", WRONG_TYPE, TOLD),
        ("stamps", '[[record]]\nid = "a"\n', "records.toml [[record]] a: missing field year"),
        ("stamps", "[[record]\n", "stamps/records.toml is not readable"),
        ("vocabulary", WRONG_TYPE, TOLD),
        ("treatments", WRONG_TYPE, TOLD),
        ("postal", WRONG_TYPE, TOLD),
    ],
)
def test_a_broken_reference_names_file_record_and_field(
    tmp_path: Path, subject: str, text: str, sentence: str
) -> None:
    folder = tmp_path / "data" / subject
    folder.mkdir(parents=True)
    (folder / "records.toml").write_text(text)
    library = BrokenLibrary(subject, tmp_path / "data")

    async def walked() -> None:
        opener = lambda: open_desk(tmp_path / "own", library=library, clock=lambda: NOW)  # noqa: E731
        async with counter_with(opener, tmp_path) as stall:
            await stall.said(sentence)
            await stall.type("1d red")
            await stall.press("f5", "escape", "f6", "escape")
            assert stall.app.is_running

    walk(walked())
    assert not list(tmp_path.glob("crash-*"))


def test_a_full_disk_keeps_the_line_and_says_so(tmp_path: Path) -> None:
    disk = BadDisk()
    own = tmp_path / "own"

    async def walked() -> None:
        async with counter_with(lambda: over(own, disk), tmp_path) as stall:
            await stall.said("Stock: 0 pieces")
            await stall.type(BOUGHT)
            disk.left = 20
            await stall.press("enter")
            await stall.said("✗ The disk is full: what you noted did not happen; make room and do it")
            assert stall.app.screen.query_one("#ask").value == BOUGHT  # type: ignore[attr-defined]
            await stall.press("f10")  # its draft cannot be kept either: said before it closes
            await stall.said("What is unfinished would be lost; again leaves it.")
            disk.left = 10**9
            await stall.press("enter")
            await stall.said("Noted as")

    walk(walked())
    assert len(numbers(own)) == 1
    assert verify(own).sound
    assert not list(tmp_path.glob("crash-*"))


def test_leaving_with_a_full_disk_works_the_second_time(tmp_path: Path) -> None:
    disk = BadDisk()

    async def walked() -> None:
        async with counter_with(lambda: over(tmp_path / "own", disk), tmp_path) as stall:
            await stall.said("Stock: 0 pieces")
            await stall.type(BOUGHT)
            disk.left = 20
            await stall.press("f10", "f10")
            assert not stall.app.is_running or stall.app._exit
            assert stall.app.return_code == 0

    walk(walked())
    assert not list(tmp_path.glob("crash-*"))


@posix
def test_a_folder_that_may_not_be_written_to_only_reads(tmp_path: Path) -> None:
    """Root may write anywhere, so the counter runs as somebody who may not."""
    own = tmp_path / "own"
    stocked(own, "A1")
    for path in own.iterdir():
        path.chmod(0o444)
    own.chmod(0o555)
    tmp_path.chmod(0o755)
    code = """
        import asyncio, os, sys
        from pathlib import Path
        import tests.tui.test_wrong_footed as t

        async def walked(folder, first, then):
            async with t.counter_with(lambda: t.over(folder)) as stall:
                await stall.said(first)
                await stall.type(t.BOUGHT)
                await stall.press("enter")
                await stall.said(then)
                await stall.press("f10")
                assert stall.app.return_code == 0

        t.LIBRARY.read_all()
        asyncio.run(walked(Path(sys.argv[2]), "Stock: 0 pieces", "Noted as"))  # loads everything
        os.chdir(os.open(sys.argv[1], os.O_RDONLY))
        if os.getuid() == 0:
            os.setgid(65534)
            os.setuid(65534)
        says = "Only reading, nothing can be noted here"
        asyncio.run(walked(Path("."), says, "Nothing was noted."))
    """
    done = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(code), str(own), str(tmp_path / "other")],
        cwd=ROOT, capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    own.chmod(0o755)
    assert done.returncode == 0, done.stderr
    assert numbers(own) == ["A1"]


def test_a_clock_set_back_is_told_and_the_order_kept(tmp_path: Path) -> None:
    own = tmp_path / "own"
    stocked(own, "A1")

    async def walked() -> None:
        async with counter_with(lambda: over(own, clock=lambda: NOW - timedelta(days=400))) as stall:
            await stall.said("Stock: 1 piece")
            await stall.type(BOUGHT)
            await stall.press("enter")
            await stall.said("Noted as")
            await stall.said("before the last entry (2026-05-02T10:00:00+01:00): the order")

    walk(walked())
    assert numbers(own)[0] == "A1" and len(numbers(own)) == 2
    assert verify(own).sound


def test_ctrl_c_never_closes_the_counter(tmp_path: Path) -> None:
    async def walked() -> None:
        async with counter_with(lambda: over(tmp_path / "own")) as stall:
            await stall.said("Stock: 0 pieces")
            await stall.type(BOUGHT)
            await stall.press("ctrl+c")
            await stall.said("F10 closes the counter; unfinished notes are kept.")
            assert stall.app.screen.query_one("#ask").value == BOUGHT  # type: ignore[attr-defined]

    walk(walked())


SECRET = "Ada Pennington"


class Faulty(Exception):
    """A fault whose message and variables quote what was typed."""


@pytest.mark.usefixtures("sent")
def test_a_crash_keeps_the_draft_and_logs_without_anyones_data(tmp_path: Path) -> None:
    own = tmp_path / "own"
    line = f"{BOUGHT} from {SECRET}"
    app = CounterApp(lambda: over(own), log_folder=tmp_path)

    def line_at(y: int, width: int) -> Any:
        typed = app.screen.board.text  # type: ignore[attr-defined]
        try:
            int(typed)
        except ValueError as fault:
            raise Faulty(f"cannot draw {typed}") from fault

    async def walked() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            stall = Stall(app, pilot)
            await stall.said("Stock: 1 piece")
            app.screen.query_one("#ask").insert_text_at_cursor(line)  # type: ignore[attr-defined]
            await pilot.pause()
            pane = app.screen.query_one(BoughtPane)
            pane.line_at = line_at  # type: ignore[method-assign]
            pane.refresh()
            await pilot.pause(0.2)

    stocked(own, "A1")
    with pytest.raises(Faulty):  # the framework's test driver raises what the app has handled
        walk(walked())
    assert app.return_code == 1
    assert app.desk
    app.desk.close()
    logs = list(tmp_path.glob("crash-*"))
    assert len(logs) == 1
    log = logs[0].read_text()
    assert "Faulty" in log and "ValueError" in log and "test_wrong_footed.py" in log
    assert SECRET not in log and "148" not in log
    if os.name == "posix":
        assert logs[0].stat().st_mode & 0o077 == 0
    desk = over(own)
    assert desk.draft("line") == {"text": line}
    desk.close()


@posix
@pytest.mark.parametrize("how", ["SIGINT", "SIGTERM", "SIGHUP", "closed"])
def test_ended_from_outside_keeps_the_line(tmp_path: Path, how: str) -> None:
    """A terminal window closed by its cross, a shutdown, a kill: the half-typed purchase is there."""
    from tests.benchmarks.terminal import Terminal

    own = tmp_path / "own"
    stocked(own, "A1")
    take = "import fcntl, termios; fcntl.ioctl(0, termios.TIOCSCTTY, 0); "  # its own, as at home
    run = "import sys; from counter.cli.main import main; sys.exit(main(sys.argv[1:]))"
    terminal = Terminal([sys.executable, "-c", take + run, "--data", str(own)])
    try:
        terminal.wait_for(b"A1")
        terminal.settle()
        terminal.stroke(BOUGHT.encode(), quiet=2.0)  # the first keys wait for the words to be read in
        if how == "closed":
            os.close(terminal.master)
        else:
            os.kill(terminal.child.pid, getattr(signal, how))
        end = time.monotonic() + 20
        while terminal.child.poll() is None and time.monotonic() < end:
            if how != "closed":
                terminal.settle(0.05, 0.2)
        assert terminal.child.poll() == 1
    finally:
        if terminal.child.poll() is None:
            terminal.child.kill()
            terminal.child.wait()
        if how != "closed":
            os.close(terminal.master)
    desk = over(own)
    assert desk.draft("line") == {"text": BOUGHT}
    assert not desk.ledger.read_only
    desk.close()
    assert verify(own).sound
