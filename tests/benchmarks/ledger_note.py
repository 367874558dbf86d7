"""A noted purchase at 100,000 lines, beside the least a computer can do and beside SQLite.

    python tests/benchmarks/ledger_note.py [--lines N] [--runs N] [--notes N] [--tinydb]

Every purchase is noted by each, in an order drawn anew each time, in one run, so that the same disk
serves all alike: ours (check, journal line, fsync, tables), a bare open-append-fsync-close of as many
bytes, and sqlite3 (WAL, synchronous=FULL) with as many rows. Prints medians and p95 in µs, and ratios;
the first notes by themselves: a log that still grows, as sqlite3's does after each opening, is slower
than one written over.
--tinydb also times one insert into TinyDB as it comes: the figures behind docs/data-files.md.
"""

from __future__ import annotations

import argparse
import gc
import json
import os
import random
import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tinydb import TinyDB
from tinydb.storages import JSONStorage, MemoryStorage

from counter.desk.data_dir import local_time
from counter.store.entry import Change
from counter.store.ledger import Ledger


def item(number: str, place: int) -> dict[str, Any]:
    return {
        "number": number,
        "issue": "1d-red-imperforate",
        "plate": str(place % 177 + 1),
        "letters": ["KC"],
        "margins": ["4"],
        "cancel": "maltese cross",
        "faults": [{"term": "thin", "where": "at top"}],
        "kept": f"red album p. {place % 60}",
        "asking": 4500 + place % 900,
        "cost": 2000,
        "remarks": "neat strike, good colour",
    }


def bought(ledger: Ledger, place: int) -> list[Change]:
    """What one noted purchase changes: the purchase and the piece that came of it."""
    number, key = ledger.next_number("items"), ledger.next_number("purchases")
    row = {
        "id": key,
        "date": "2026-05-01",
        "total_pence": 4500,
        "words": "bt 1d red imperf pl 11 KC 4 margins £45 cash",
        "items": [number],
        "payment": "cash",
    }
    return [Change("purchases", key, row), Change("items", number, item(number, place))]


def fill(ledger: Ledger, lines: int) -> None:
    for start in range(0, lines, 1000):
        numbers = [
            (ledger.next_number("items"), place) for place in range(start, min(lines, start + 1000))
        ]
        ledger.note_many([("imported", [Change("items", n, item(n, place))]) for n, place in numbers])


def timed(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1e6


def bare(path: Path, line: bytes) -> None:
    handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
    os.write(handle, line)
    os.fsync(handle)
    os.close(handle)


def open_sqlite(path: Path, ledger: Ledger) -> sqlite3.Connection:
    base = sqlite3.connect(path, isolation_level=None)
    base.execute("PRAGMA journal_mode=WAL")
    base.execute("PRAGMA synchronous=FULL")
    base.execute("CREATE TABLE rows (kind TEXT, key TEXT, row TEXT, PRIMARY KEY (kind, key))")
    base.execute("BEGIN")
    rows = (("items", row["number"], json.dumps(row)) for row in ledger.rows("items"))
    base.executemany("INSERT INTO rows VALUES (?, ?, ?)", rows)
    base.execute("COMMIT")
    base.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return base


def into_sqlite(base: sqlite3.Connection, changes: list[Change]) -> None:
    base.execute("BEGIN IMMEDIATE")
    rows = [(each.table, each.key, json.dumps(each.row)) for each in changes]
    base.executemany("INSERT OR REPLACE INTO rows VALUES (?, ?, ?)", rows)
    base.execute("COMMIT")


def p95(times: list[float]) -> float:
    return statistics.quantiles(times, n=20)[-1]


def compare(folder: Path, ledger: Ledger, runs: int, notes: int) -> None:
    base = open_sqlite(folder / "peer.sqlite", ledger)
    found: dict[str, list[list[float]]] = {"ours": [], "bare": [], "sqlite": []}
    turns = random.Random(1840)  # nobody always comes after the same neighbour's wait for the disk
    gc.collect()
    gc.freeze()  # as the counter does once its stock is read; and the next as at its start
    gc.set_threshold(10_000)
    line = b""
    for _ in range(runs + 1):
        times: dict[str, list[float]] = {name: [] for name in found}
        for place in range(notes):
            changes = bought(ledger, place)
            for name in turns.sample(list(found), len(found)):
                before = ledger.journal.size
                if name == "ours":
                    times[name].append(timed(lambda made=changes: ledger.note("purchase noted", made)))
                    line = ledger.journal.bytes_at(before, ledger.journal.size)
                elif name == "bare":  # the line of ours, this one's or the one before: of a length
                    line = line or bytes(900)
                    times[name].append(timed(lambda same=line: bare(folder / "bare", same)))
                else:
                    times[name].append(timed(lambda made=changes: into_sqlite(base, made)))
        for name, each in times.items():
            found[name].append(each)
    base.close()
    shown(f"the first {notes} notes", {name: each[:1] for name, each in found.items()})
    shown(f"{runs} more runs of {notes}", {name: each[1:] for name, each in found.items()})


def shown(what: str, found: dict[str, list[list[float]]]) -> None:
    print(f"{what:24}{'median µs':>11}{'p95 µs':>9}")
    middle = {name: statistics.median(map(statistics.median, each)) for name, each in found.items()}
    high = {name: statistics.median(map(p95, each)) for name, each in found.items()}
    for name in found:
        print(f"{name:24}{middle[name]:11.0f}{high[name]:9.0f}")
    for peer in ("bare", "sqlite"):
        ratio = high["ours"] / high[peer]
        print(f"ours / {peer}: p95 {ratio:.2f}, median {middle['ours'] / middle[peer]:.2f}")


def as_it_comes(folder: Path, ledger: Ledger) -> None:
    """TinyDB's own storages with the same rows: one insert rewrites, or copies, everything."""
    rows = [dict(row) for row in ledger.rows("items")]
    kinds: dict[str, Callable[[], TinyDB]] = {
        "JSON file": lambda: TinyDB(folder / "tiny.json", storage=JSONStorage),
        "memory alone": lambda: TinyDB(storage=MemoryStorage),
    }
    for name, make in kinds.items():
        table = make().table("items")
        table.insert_multiple(rows)
        times = [timed(lambda into=table: into.insert(item("X", 1))) for _ in range(5)]
        print(f"TinyDB as it comes, {name}: one insert {statistics.median(times) / 1000:.1f} ms")
    table = ledger.table("items")
    ours = statistics.median(timed(lambda: table.insert(item("", 1))) for _ in range(50)) / 1000
    print(f"TinyDB over our storage, with the journal: one insert {ours:.2f} ms")


def opening(folder: Path) -> None:
    for name in ("snapshot and journal", "journal alone"):
        start = time.perf_counter()
        ledger = Ledger.open(folder, clock=local_time)
        took = time.perf_counter() - start
        print(f"opening {len(ledger.rows('items')):,} lines from {name}: {took * 1000:.0f} ms")
        ledger.close()
        (folder / "snapshot").unlink()
        (folder / "snapshot.previous").unlink(missing_ok=True)


def main() -> None:
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--lines", type=int, default=100_000)
    words.add_argument("--runs", type=int, default=7)
    words.add_argument("--notes", type=int, default=300)
    words.add_argument("--tinydb", action="store_true")
    chosen = words.parse_args()
    with tempfile.TemporaryDirectory(dir=Path.cwd()) as place:
        folder = Path(place)
        ledger = Ledger.open(folder / "own", clock=local_time)
        fill(ledger, chosen.lines)
        print(f"{chosen.lines:,} lines of stock, {(folder / 'own' / 'journal').stat().st_size:,} bytes")
        compare(folder, ledger, chosen.runs, chosen.notes)
        if chosen.tinydb:
            as_it_comes(folder, ledger)
        start = time.perf_counter()
        ledger.snapshot()
        print(f"writing a snapshot: {(time.perf_counter() - start) * 1000:.0f} ms")
        ledger.close()
        opening(folder / "own")


if __name__ == "__main__":
    main()
