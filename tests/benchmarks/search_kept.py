"""How soon a large stock can be searched: the ledger opened, the index read from its file or built.

python tests/benchmarks/search_kept.py [LINES]
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from counter.describe.names import issue_names
from counter.reference.library import Library
from counter.search import index_file
from counter.search.index import StockIndex
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.values.record import write_row
from tests.benchmarks.synthetic_stock import stock

RUNS = 5


def clock() -> datetime:
    """The time now."""
    return datetime.now(UTC)


def main(size: int) -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        noted(folder, size)
        print(f"{size:,} lines; seconds by the clock (and of processor time)")
        print(f"built from the rows: {opened(folder)}")
        print(f"written to its file: {(folder / index_file.NAME).stat().st_size / 1e6:.0f} MB")
        for _ in range(RUNS):
            print(f"read from its file: {opened(folder)}", flush=True)


def noted(folder: Path, size: int) -> None:
    """A ledger of so many lines in the folder."""
    ledger = Ledger.open(folder, clock=clock, laptop="WK")
    items = stock(Library().stamps, size)
    changes = [Change("items", item.number, write_row(item)) for item in items]
    ledger.note_many(("stock noted", changes[at : at + 500]) for at in range(0, len(changes), 500))
    ledger.close()


def opened(folder: Path) -> str:
    """Open the folder in a process of its own, as the counter does, and say what it took."""
    again = [sys.executable, __file__, "--open", str(folder)]
    return subprocess.run(again, capture_output=True, check=True, text=True).stdout.strip()


def open_here(folder: Path) -> None:
    """The ledger opened, the index filled, a question asked, the index kept."""
    names = issue_names(Library().stamps)
    ledger = Ledger.open(folder, clock=clock)
    index = StockIndex(names)
    start, cpu = time.perf_counter(), time.process_time()
    slices = sum(1 for _ in index_file.fill(index, ledger))
    took, worked = time.perf_counter() - start, time.process_time() - cpu
    assert index.find("1d black pl 6")
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{took:.2f} ({worked:.2f}) in {slices} slices, process of {memory:.0f} MB at its highest")
    index_file.keep(index, ledger)
    ledger.close()


if __name__ == "__main__":
    if sys.argv[1:2] == ["--open"]:
        open_here(Path(sys.argv[2]))
    else:
        main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
