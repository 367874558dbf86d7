"""How soon a large stock can be searched: the ledger opened, the index read from its file or built.

python tests/benchmarks/search_kept.py [LINES]
"""

from __future__ import annotations

import resource
import statistics
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from counter.ledger.entry import Change
from counter.ledger.ledger import Ledger
from counter.ledger.names import Names, issue_names
from counter.ledger.search import StockIndex, kept
from counter.reference.library import Library
from counter.values.item import item_to_row
from tests.benchmarks.synthetic_stock import stock

RUNS = 5


def clock() -> datetime:
    """The time now."""
    return datetime.now(UTC)


def main(size: int) -> None:
    """Measure and print."""
    stamps = Library().stamps
    names = issue_names(stamps)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        ledger = Ledger.open(folder, clock=clock, laptop="WK")
        items = stock(stamps, size)
        changes = [Change("items", item.number, item_to_row(item)) for item in items]
        ledger.note_many(("stock noted", changes[at : at + 500]) for at in range(0, len(changes), 500))
        print(f"{size:,} lines, {RUNS} runs")
        took, slices, _ = filled(ledger, names)
        print(f"built from the rows: {took:.2f} s in {slices} slices")
        index = filled(ledger, names)[2]
        start = time.perf_counter()
        kept.keep(index, ledger)
        size_kept = (folder / kept.NAME).stat().st_size / 1e6
        print(f"written to its file: {time.perf_counter() - start:.2f} s, {size_kept:.0f} MB")
        runs = [filled(ledger, names) for _ in range(RUNS)]
        seconds = statistics.median(run[0] for run in runs)
        print(f"read from its file: {seconds:.2f} s in {runs[0][1]} slices (median)")
        ledger.close()
    print(f"memory at its highest: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


def filled(ledger: Ledger, names: Names) -> tuple[float, int, StockIndex]:
    """Seconds, slices, and the index filled."""
    index = StockIndex(names)
    start = time.perf_counter()
    slices = sum(1 for _ in kept.fill(index, ledger))
    return time.perf_counter() - start, slices, index


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
