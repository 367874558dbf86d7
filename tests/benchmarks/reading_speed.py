"""How fast the ask line is read, beside what a key press costs anyway.

Run: python tests/benchmarks/reading_speed.py. Peers in the same run: splitting the line and looking
each word up, and one fuzzy look-up of a word among all words of the vocabulary. The line is read as it
is typed, at every key, so each prefix of each line is a case.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from rapidfuzz.distance import OSA
from rapidfuzz.process import extractOne

from counter.judge.reading import read_line
from counter.judge.reading.phrases import meant_by
from counter.reference.library import Library

LINES = (
    "1d blk imp KC sm crown mx red",
    "1d red imperf tied black mx leeds 12 mar 1842 half ounce",
    "2 1/2d rosy mauve orb pl 5 lettered CK-KC perf 14 under £100",
    "penny black maltse cross vermillon imprf 4 lge margins small tear at top left",
    "½d rose pl 9 OX half penny script thin hinged numeral 46 on cover backstamped london 3 may 1871",
)
ROUNDS = 20


def timed(work: Callable[[str], object], cases: list[str]) -> list[float]:
    """Milliseconds of this process's own work for each case."""
    taken = []
    for case in cases:
        start = time.process_time()
        work(case)
        taken.append((time.process_time() - start) * 1000)
    return taken


def main() -> None:
    """Print median and 95th percentile of each, and how many times the peer."""
    start = time.perf_counter()
    vocabulary = Library().vocabulary
    print(f"vocabulary read in {(time.perf_counter() - start) * 1000:.0f} ms")
    words = list(vocabulary.tree.next)
    prefixes = [line[:end] for line in LINES for end in range(1, len(line) + 1)]
    read_line("warm vermillon", vocabulary)

    def afresh(line: str) -> None:
        meant_by.cache_clear()
        read_line(line, vocabulary)

    cases = {
        "read, every prefix": (lambda line: read_line(line, vocabulary), prefixes),
        "read, slips not remembered": (afresh, prefixes),
        "peer: split and look up": (
            lambda line: [vocabulary.tree.next.get(word) for word in line.lower().split()],
            prefixes,
        ),
        "peer: one fuzzy look-up": (
            lambda line: extractOne(
                line.split()[-1] if line.split() else "", words, scorer=OSA.distance
            ),
            prefixes,
        ),
    }
    for name, (work, lines) in cases.items():
        taken = [each for _ in range(ROUNDS) for each in timed(work, lines)]
        p95 = statistics.quantiles(taken, n=20)[-1]
        print(f"{name:28} median {statistics.median(taken):.3f} ms, p95 {p95:.3f} ms")


if __name__ == "__main__":
    main()
