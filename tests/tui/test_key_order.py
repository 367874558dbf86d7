"""Keys act in the order typed: a burst, a scanner, a stopped process, on a real pseudo-terminal."""

from __future__ import annotations

import json
import os
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from tests.benchmarks.terminal import Terminal

pytestmark = pytest.mark.skipif(os.name == "nt", reason="needs a pseudo-terminal")

ENTER, ESC, TAB, LEAVE = b"\r", b"\x1b", b"\t", b"\x11"
F3, F6, F7 = b"\x1bOR", b"\x1b[17~", b"\x1b[18~"


class Typist:
    """Types on the terminal at a pace, and reads what came of it at the end."""

    def __init__(self, terminal: Terminal, told: Path, pace: float | None) -> None:
        self.terminal = terminal
        self.told = told
        self.pace = pace  # seconds a key; None: while the process is stopped

    def type(self, keys: bytes) -> None:
        """All keys, then wait until the screen is at rest."""
        pid = self.terminal.child.pid
        if self.pace is None:
            os.kill(pid, signal.SIGSTOP)
            self.terminal.write(keys)
            time.sleep(0.3)
            os.kill(pid, signal.SIGCONT)
        elif not self.pace:
            self.terminal.write(keys)
        else:
            for key in _split(keys):
                self.terminal.write(key)
                time.sleep(self.pace)
        self.terminal.settle(0.6, 20.0)

    def result(self) -> dict[str, Any]:
        """Leave the counter; what it wrote down."""
        self.terminal.write(LEAVE)
        for _ in range(400):
            self.terminal.settle(0.05, 0.1)
            if self.told.exists() and self.told.stat().st_size:
                return dict(json.loads(self.told.read_text(encoding="utf-8")))
        raise AssertionError("the counter did not close")


def _split(keys: bytes) -> list[bytes]:
    """The keys one by one; a sequence of a function key stays whole."""
    parts: list[bytes] = []
    while keys:
        size = 3 if keys[:2] == b"\x1bO" else keys.index(b"~") + 1 if keys[:2] == b"\x1b[" else 1
        parts.append(keys[:size])
        keys = keys[size:]
    return parts


@contextmanager
def stall(tmp_path: Path, pace: float | None) -> Iterator[Typist]:
    told = tmp_path / "told.json"
    terminal = Terminal([sys.executable, "-m", "tests.tui.pty_stall", str(told)], 80, 24)
    try:
        terminal.wait_for(rb"pieces", 60.0)
        terminal.settle(1.0, 20.0)
        yield Typist(terminal, told, pace)
    finally:
        terminal.close()


PACES = [0.0, 0.001, 0.002, 0.005, None]
IDS = ["at once", "1 ms", "2 ms", "5 ms", "process stopped"]


@pytest.mark.parametrize("pace", [PACES[0], PACES[-1]], ids=[IDS[0], IDS[-1]])
def test_the_errands_of_a_stall_come_out_as_typed(tmp_path: Path, pace: float | None) -> None:
    """A scan, a discount, a sale's first answer, a purchase: each in one run of keys.

    The paces between are typed on every screen (test_key_order_screens.py).
    """
    with stall(tmp_path, pace) as typist:
        typist.type(b"WK-884" + ENTER)
        typist.type(F3 + b"10%" + ENTER)
        typist.type(ESC)
        typist.type(b"bt 2d blue pl 3 KC \xc2\xa345 cash harrow" + ENTER)
        result = typist.result()
    assert [number for number, _ in result["quote"]] == ["WK-884"]
    (price,) = [price for _, price in result["quote"]]
    assert result["total"] == price - price // 10  # £210 less 10 %: exact
    assert result["last"]["total_pence"] == 4500 and result["line"] == ""


def test_a_scanner_takes_every_piece(tmp_path: Path) -> None:
    """Fifty scans in a row, each a stock number and Enter, as fast as they come."""
    numbers = _priced(50)
    with stall(tmp_path, 0.0) as typist:
        typist.type(b"".join(number.encode() + ENTER for number in numbers))
        typist.terminal.settle(1.5, 60.0)
        result = typist.result()
    assert [number for number, _ in result["quote"]] == numbers
    assert result["line"] == ""


def _priced(count: int) -> list[str]:
    """The stock numbers of so many priced pieces of the demo that may be quoted."""
    from datetime import datetime

    from counter.desk.opening import open_desk
    from counter.reference.library import Library

    now = datetime.fromisoformat("2026-05-02T10:00:00+01:00")
    desk = open_desk(None, demo=True, library=Library(), clock=lambda: now)
    try:
        rows = [
            row
            for row in desk.ledger.rows("items")
            if row.get("asking") and row.get("status", "in stock") == "in stock"
        ]
        return [row["number"] for row in rows[:count]]
    finally:
        desk.close()
