"""On every screen with an entry keys act in the order typed: one counter on a real pseudo-terminal.

What each action found in the entry, and where everything ended, must be the same however fast the
keys come as when each waits for the one before it.
"""

from __future__ import annotations

import json
import os
import signal
import socket
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from counter.tui.navigation import SCREENS, screen_class
from counter.tui.widgets.work_screen import WorkScreen
from tests.benchmarks.terminal import Terminal
from tests.tui.pty_screens import END
from tests.tui.test_key_order import ENTER, ESC, IDS, PACES, TAB

pytestmark = pytest.mark.skipif(os.name == "nt", reason="needs a pseudo-terminal")

#: What a terminal sends for F1 to F9.
F = {f"f{number}": b"\x1bO" + letter for number, letter in enumerate((b"P", b"Q", b"R", b"S"), 1)}
F |= {f"f{number}": b"\x1b[%d~" % code for number, code in enumerate((15, 17, 18, 19, 20), 5)}
#: Without an entry of their own in front, or opened only while a treatment is under way.
WITHOUT = {
    "conflicts", "data_files", "day", "examine", "help", "invoice", "item", "treatment_checks",
    "treatment_done", "treatment_timer",
}  # fmt: skip


class Driver:
    """Types on the terminal, and asks the program over its socket what came of it."""

    def __init__(self, folder: Path) -> None:
        place = folder / "told"
        self.terminal = Terminal([sys.executable, "-m", "tests.tui.pty_screens", str(place)], 80, 24)
        self.terminal.wait_for(rb"pieces", 60.0)
        threading.Thread(target=self._drain, daemon=True).start()
        self.socket = socket.socket(socket.AF_UNIX)
        self.socket.connect(str(place))
        self.lines = self.socket.makefile("rw", encoding="utf-8")
        while self.ask("open counter").get("wait"):
            pass

    def _drain(self) -> None:
        with suppress(OSError):  # the terminal was closed
            while self.terminal.child.poll() is None:
                self.terminal.settle(0.05, 0.5)

    def ask(self, command: str) -> dict[str, Any]:
        self.lines.write(command + "\n")
        self.lines.flush()
        told = dict(json.loads(self.lines.readline()))
        assert "fault" not in told, told
        return told

    def one_by_one(self, keys: list[bytes]) -> dict[str, Any]:
        """What comes of it when each key waits for the one before it."""
        told: dict[str, Any] = {}
        for key in keys:
            self.terminal.write(key + END)
            told = self.ask("trace")
        return told

    def at(self, pace: float | None, keys: list[bytes]) -> dict[str, Any]:
        """The same keys at a pace; None: all while the program is stopped."""
        pid = self.terminal.child.pid
        if pace is None:
            os.kill(pid, signal.SIGSTOP)
            self.terminal.write(b"".join(keys) + END)
            time.sleep(0.05)
            os.kill(pid, signal.SIGCONT)
        elif not pace:
            self.terminal.write(b"".join(keys) + END)
        else:
            for key in (*keys, END):
                self.terminal.write(key)
                time.sleep(pace)
        return self.ask("trace")


@pytest.fixture(scope="module")
def driver(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Driver]:
    made = Driver(tmp_path_factory.mktemp("pty"))
    yield made
    made.terminal.close()


def run_of_keys(name: str, most: int = 1) -> list[bytes]:
    """Letters with Enter, Tab, `most` of the screen's own keys (or the finder's) and Esc among them."""
    kind = screen_class(name)
    keys = [*_each(b"1d"), ENTER]
    if issubclass(kind, WorkScreen):
        return keys  # what comes behind is refused while the work goes on
    keys += [*_each(b"xy"), TAB, b"z"]
    own = [F[each.keys] for each in kind.ACTIONS if each.keys in F][:most]
    for key in own or [F["f2"]]:
        keys += [key, b"5"]
    return [*keys, ESC, b"w"]


def _each(text: bytes) -> list[bytes]:
    return [bytes([each]) for each in text]


@pytest.mark.parametrize("name", [each for each in SCREENS if each not in WITHOUT])
def test_keys_act_in_the_order_typed_whatever_the_speed(driver: Driver, name: str) -> None:
    driver.ask(f"open {name}")
    keys = run_of_keys(name)
    wanted = driver.one_by_one(keys)
    screen, _, words = wanted["done"][0]
    assert screen == name and "1d" in words  # Enter found the whole word before it
    for pace, words in zip(PACES, IDS, strict=True):
        driver.ask(f"open {name}")
        assert driver.at(pace, keys) == wanted, words


@pytest.mark.parametrize("name", ["counter", "quote", "day", "complete_purchase", "stock_book"])
def test_every_key_of_a_screen_acts_behind_what_was_typed_before_it(driver: Driver, name: str) -> None:
    driver.ask(f"open {name}")
    keys = run_of_keys(name, 9)
    wanted = driver.one_by_one(keys)
    driver.ask(f"open {name}")
    assert driver.at(0.0, keys) == wanted
