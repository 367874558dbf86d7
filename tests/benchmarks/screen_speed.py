"""The opening screen against bare peers, side by side in one run on a real pseudo-terminal.

    python tests/benchmarks/screen_speed.py [--lines N] [--runs N]

First frame: ours with the demo (or N synthetic lines) against a bare app with one label. Key to list:
every key of a few typed lines against the same keys in an app that only echoes. A burst of 20 keys.
Prints medians, p95 and ratios.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from counter.desk.data_dir import local_time
from counter.desk.opening import open_desk
from counter.reference.library import Library
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.values.record import write_row
from tests.benchmarks.synthetic_stock import stock
from tests.benchmarks.terminal import Terminal, python

BARE = """
from textual.app import App
from textual.widgets import Label
class Bare(App):
    ENABLE_COMMAND_PALETTE = False
    def compose(self):
        yield Label("bare app")
Bare().run()
"""
ECHO = """
from textual.app import App
from textual.widgets import Input
class Echo(App):
    ENABLE_COMMAND_PALETTE = False
    def compose(self):
        box = Input(placeholder="echo only", compact=True)
        box.cursor_blink = False
        yield box
Echo().run()
"""
LINES = (
    "1d blk imp KC sm crown",
    "2d blu no lines",
    "1d red pl 148",
    "3d rose emblems",
    "9d green 1884",
)
CLEAR = b"\x15"  # Ctrl+U


def p95(values: list[float]) -> float:
    return sorted(values)[max(round(len(values) * 0.95) - 1, 0)]


def tell(name: str, ours: list[float], peer: list[float]) -> None:
    middle = statistics.median(ours) / statistics.median(peer)
    edge = p95(ours) / p95(peer)
    print(
        f"{name:<24} ours {statistics.median(ours) * 1000:7.1f} / {p95(ours) * 1000:7.1f} ms"
        f"   peer {statistics.median(peer) * 1000:7.1f} / {p95(peer) * 1000:7.1f} ms"
        f"   ratio {middle:5.2f} / {edge:5.2f}   (median / p95, n = {len(ours)})"
    )


def first_frames(ours: list[str], runs: int) -> tuple[list[float], list[float]]:
    times: tuple[list[float], list[float]] = ([], [])
    for run in range(runs + 1):
        for at, command, words in ((0, ours, b"Opening the stock"), (1, python(BARE), b"bare app")):
            terminal = Terminal(command)
            seconds = terminal.wait_for(words)
            terminal.close()
            if run:  # the first round warms the disk
                times[at].append(seconds)
    return times


def searchable(ours: list[str], number: str, runs: int) -> list[float]:
    """Seconds from the first frame until a stock number typed at once is a line of the list."""
    # the list's own pointer, not that of the ask line, then the number in whatever colours
    row = rb"(?<!ask )\xe2\x96\xb8 (?:\x1b\[[0-9;]*m)*" + number.encode() + rb"(?![0-9])"
    times = []
    for _ in range(runs):
        terminal = Terminal(ours)
        first = terminal.wait_for(b"Opening the stock")
        terminal.write(number.encode())
        times.append(terminal.wait_for(row) - first)
        terminal.close()
    return times


def strokes(terminal: Terminal, rounds: int) -> list[float]:
    times = []
    for _ in range(rounds):
        for line in LINES:
            terminal.stroke(CLEAR)
            times += [terminal.stroke(key.encode())[0] for key in line]
    return times


def plant(folder: Path, count: int) -> tuple[str, str]:
    """A ledger of so many synthetic lines, opened and closed once so that its index is kept.

    Returns the first and the last stock number.
    """
    library = Library()
    ledger = Ledger.open(folder, clock=local_time)
    items = list(stock(library.stamps, count))
    ledger.note_many(("stock noted", [Change("items", item.number, write_row(item))]) for item in items)
    ledger.snapshot()
    ledger.close()
    desk = open_desk(folder, library=library)
    desk.index_all()
    desk.close()
    return items[0].number, items[-1].number


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lines", type=int, default=0, help="synthetic stock lines (0: the demo)")
    parser.add_argument("--runs", type=int, default=9)
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        ours = [sys.executable, "-m", "counter", "--demo"]
        numbers: tuple[str, ...] = ("WK-1", "WK-1108")
        if chosen.lines:
            numbers = plant(Path(folder) / "data", chosen.lines)
            ours = [sys.executable, "-m", "counter", "--data", str(Path(folder) / "data")]
        tell("first frame", *first_frames(ours, chosen.runs))
        for number in numbers:
            times = searchable(ours, number, chosen.runs)
            print(
                f"{number} found {statistics.median(times):.2f} / {p95(times):.2f} s"
                f" after the first frame (median / p95, n = {len(times)})"
            )
        counter, echo = Terminal(ours), Terminal(python(ECHO))
        counter.wait_for(b"pieces")
        echo.wait_for(b"cho only")
        for terminal in (counter, echo):
            terminal.settle()
            strokes(terminal, 1)
        tell("key to list", strokes(counter, 3), strokes(echo, 3))
        bursts: tuple[list[float], list[float]] = ([], [])
        for _ in range(chosen.runs):
            for at, terminal, keys in ((0, counter, LINES[0][:20]), (1, echo, "x")):
                terminal.stroke(CLEAR)
                bursts[at].append(terminal.stroke(keys.encode())[0])
        tell("burst of 20 : one echo", *bursts)
        print(f"memory {counter.memory_mb():.0f} MB")
        counter.close()
        echo.close()


if __name__ == "__main__":
    main()
