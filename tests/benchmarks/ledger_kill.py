"""Kill a writing process at random moments, over and over, and look for anything lost.

    python tests/benchmarks/ledger_kill.py [TIMES] [--seed N]

Each round a child process opens the same ledger, notes entries (and now and then writes a snapshot),
and says each number through a pipe once the note returned. The parent kills it with SIGKILL at a
random moment, then reads the ledger: every number said must be there, and verify must find no fault.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import sys
import tempfile
import time
from datetime import datetime
from pathlib import Path

from counter.store.entry import Change
from counter.store.files import Disk
from counter.store.ledger import Ledger
from counter.store.verify import verify

PIECE = 16  # bytes of a line written at once
ROOM = 8192  # and of the room behind the lines
LONGEST = 0.05  # seconds a child lives at most, from its start or from its opening


class PiecemealDisk(Disk):
    """Writes in small pieces, so that many a kill finds a line, or its room, half-written."""

    def write(self, handle: int, data: bytes, at: int) -> int:
        return super().write(handle, data[: ROOM if len(data) > ROOM else PIECE], at)


def write_until_killed(folder: Path, pipe: int) -> None:
    """The child: note, then say so; every seventh entry a snapshot, every third a batch."""
    ledger = Ledger.open(folder, clock=datetime.now, disk=PiecemealDisk())
    os.write(pipe, b"0\n")
    while True:
        first = len(ledger.rows("items"))
        count = 5 if first % 3 == 0 else 1
        notes = []
        for number in range(first, first + count):
            row = {"number": f"n{number}", "words": "a noted purchase " * (number % 40)}
            notes.append(("noted", [Change("items", row["number"], row)]))
        ledger.note_many(notes)
        os.write(pipe, f"{first + count}\n".encode())
        if first % 7 == 0:
            ledger.snapshot()


def one_round(folder: Path, lives: float, *, opening: bool) -> int:
    """Start a child, kill it while `opening` or after; returns how many items it said were noted."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(read)
            write_until_killed(folder, write)
        except BaseException as fault:
            print(f"the writer failed: {fault!r}", file=sys.stderr, flush=True)
        finally:
            os._exit(1)
    os.close(write)
    with os.fdopen(read, "rb") as said:
        lines = [] if opening else [said.readline()]
        time.sleep(lives)
        os.kill(child, signal.SIGKILL)
        lines += said.read().split()
    _, status = os.waitpid(child, 0)
    if not os.WIFSIGNALED(status):
        raise SystemExit("The writer ended by itself: see the line above.")
    return int(lines[-1]) if lines else 0


def check(folder: Path, said: int, *, whole: bool) -> int:
    """How many items are there; ends the run when one that was said is missing, or at a fault."""
    ledger = Ledger.open(folder, clock=datetime.now)
    there = len(ledger.rows("items"))
    missing = [number for number in range(there) if ledger.row("items", f"n{number}") is None]
    ledger.close()
    if ledger.read_only or there < said or missing:
        raise SystemExit(f"LOST: said {said}, there {there}, missing {missing}, {ledger.told}")
    if whole:
        faults = [each.words for each in verify(folder).findings if each.weight == "fault"]
        if faults:
            raise SystemExit(f"FAULTS: {faults}")
    return there


def run(times: int, seed: int) -> str:
    """Kill so many writers; returns the line to print."""
    chance = random.Random(seed)
    torn = started = most = 0
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "own"
        check(folder, 0, whole=False)
        for number in range(times):
            said = one_round(folder, chance.random() * LONGEST, opening=number % 5 == 4)
            started += said > 0
            most = max(most, said)
            most = check(folder, most, whole=number % 10 == 0)
        check(folder, most, whole=True)
        torn = len(list((folder / "aside").glob("*"))) if (folder / "aside").exists() else 0
    return (
        f"{times} kills (seed {seed}): {started} while noting, {torn} left a torn line that was set "
        f"aside; {most} items noted, none lost."
    )


if __name__ == "__main__":
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("times", type=int, nargs="?", default=1000)
    words.add_argument("--seed", type=int, default=1840)
    chosen = words.parse_args()
    print(run(chosen.times, chosen.seed))
