"""Searching 100,000 lines at every key: the index beside its peers, in one run.

    python tests/benchmarks/search_index.py [LINES]

Peers: rapidfuzz's process.extract with WRatio over the list, fzf --filter (when installed), SQLite's
FTS5 with trigrams, each on the same lines; and each again on lines and questions brought to one form by
this project's own word reading, so that the index and not the dictionary is what is compared. Every
prefix of every question is a keystroke; the slow peers are given an even sample of the keystrokes.
Processor time is printed beside the clock's, since it does not depend on what else the machine does.
"""

from __future__ import annotations

import gc
import resource
import shutil
import sqlite3
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random

from rapidfuzz import fuzz, process

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from counter.describe.names import Names, issue_names
from counter.reference.library import Library
from counter.search.index import StockIndex
from counter.search.tokenizer import ALIASES, FILLERS, pieces
from counter.values.item import Item
from tests.benchmarks.synthetic_stock import Wanted, line_of, questions, stock

Finder = Callable[[str], Sequence[int]]
TOP = 20
RUNS = 5


@dataclass(frozen=True)
class Peer:
    """A way to search: how many keystrokes to sample (0: all) and how many whole questions to judge."""

    name: str
    find: Finder
    keystrokes: int = 0
    whole: int = 200
    fresh: Callable[[], None] = lambda: None  # called before each run: nothing is remembered over


@dataclass(frozen=True)
class Took:
    """Milliseconds a keystroke, by the clock on the wall and of processor time: median and p95."""

    wall: tuple[float, float]
    cpu: tuple[float, float]


def main(size: int) -> None:
    """Measure and print."""
    stamps = Library().stamps
    names = issue_names(stamps)
    items = stock(stamps, size)
    lines = [line_of(item, names) for item in items]
    asked = questions(items, lines, 200)
    index = built(items, names)
    places = {item.number: place for place, item in enumerate(items)}
    numbers = [item.number for item in items]

    def own(text: str) -> list[int]:
        return [places[hit.number] for hit in index.find(text, TOP)]

    updates(index, items)
    print(f"{size:,} lines, {len(asked)} questions, {RUNS} runs; milliseconds a keystroke")
    ours = measured(Peer("this index", own, fresh=lambda: index.put(items[0])), asked, numbers)
    for peer in peers(lines):
        theirs = measured(peer, asked, numbers)
        cpu = [theirs.cpu[at] / ours.cpu[at] for at in (0, 1)]
        wall = [theirs.wall[at] / ours.wall[at] for at in (0, 1)]
        print(
            f"{'':34} processor: {cpu[0]:,.0f} times the index at the median, {cpu[1]:,.0f} at p95"
            f" (wall: {wall[0]:,.0f}, {wall[1]:,.0f})",
            flush=True,
        )


def built(items: list[Item], names: Names) -> StockIndex:
    """Build in slices, as the counter does, and say what it took."""
    gc.collect()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    start, cpu = time.perf_counter(), time.process_time()
    index = StockIndex(names)
    for _ in index.put_many(items):
        pass
    wall, worked = time.perf_counter() - start, time.process_time() - cpu
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    print(f"built in {wall:.2f} s ({worked:.2f} s of processor time), {grown / 1024:.0f} MB more")
    return index


def updates(index: StockIndex, items: list[Item]) -> None:
    """A record put again, as after a note."""
    times = []
    for item in Random(5).sample(items, 500):
        start = time.thread_time()
        index.put(item)
        times.append((time.thread_time() - start) * 1000)
    print(
        f"a record put again: median {middle(times):.3f} ms, p95 {p95(times):.3f} ms of processor time"
    )


def measured(peer: Peer, asked: Sequence[Wanted], numbers: Sequence[str]) -> Took:
    """Each keystroke in each of the runs; its median over the runs stands for it."""
    typed = [wanted.text[:end] for wanted in asked for end in range(1, len(wanted.text) + 1)]
    if peer.keystrokes:
        typed = typed[:: max(1, len(typed) // peer.keystrokes)]
    walls: list[list[float]] = [[] for _ in typed]
    cpus: list[list[float]] = [[] for _ in typed]
    for _ in range(RUNS):
        peer.fresh()
        for place, text in enumerate(typed):
            wall, cpu = time.perf_counter(), worked()
            peer.find(text)
            walls[place].append((time.perf_counter() - wall) * 1000)
            cpus[place].append((worked() - cpu) * 1000)
    by_wall, by_cpu = [middle(each) for each in walls], [middle(each) for each in cpus]
    took = Took((middle(by_wall), p95(by_wall)), (middle(by_cpu), p95(by_cpu)))
    first, five = hits(peer, asked, numbers)
    print(
        f"{peer.name:34} processor: median {took.cpu[0]:9.3f} p95 {took.cpu[1]:9.3f}"
        f"   wall: median {took.wall[0]:9.3f} p95 {took.wall[1]:9.3f}"
        f"   hit@1 {first:.3f} hit@5 {five:.3f} ({len(typed)} keystrokes)",
        flush=True,
    )
    return took


def worked() -> float:
    """Processor seconds of this process and of those it ran and waited for."""
    ran = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + ran.ru_utime + ran.ru_stime


def middle(times: Sequence[float]) -> float:
    """The median."""
    return statistics.median(times)


def p95(times: Sequence[float]) -> float:
    """The time that nineteen in twenty do not exceed."""
    return sorted(times)[int(len(times) * 0.95)]


def hits(peer: Peer, asked: Sequence[Wanted], numbers: Sequence[str]) -> tuple[float, float]:
    """The share of whole questions whose right answer comes first, or among the first five."""
    first = five = 0
    judged = asked[: peer.whole]
    for wanted in judged:
        found = [numbers[place] for place in peer.find(wanted.text)[:5]]
        first += bool(found) and found[0] in wanted.right
        five += any(number in wanted.right for number in found)
    return first / len(judged), five / len(judged)


def peers(lines: list[str]) -> Iterator[Peer]:
    """Each peer on the lines as they are, and on lines and questions in one form."""
    plain = [one_form(line) for line in lines]
    for label, given, reading in (("", lines, str), (" + our word reading", plain, one_form)):
        yield Peer(f"SQLite FTS5 trigram{label}", sqlite_finder(given, reading), keystrokes=100)
        if shutil.which("fzf"):
            yield Peer(f"fzf --filter{label}", fzf_finder(given, reading), keystrokes=40)
        slow = rapidfuzz_finder(given, reading)
        yield Peer(f"rapidfuzz WRatio{label}", slow, keystrokes=20, whole=60)


def one_form(text: str) -> str:
    """A text in the words of our own reading: aliases written out, plural and plate in one form."""
    tokens = (token for piece in pieces(text) for token in piece.tokens if token not in FILLERS)
    return " ".join(ALIASES.get(token, (token,))[0] for token in tokens)


def rapidfuzz_finder(lines: list[str], reading: Callable[[str], str]) -> Finder:
    lowered = [line.lower() for line in lines]

    def find(text: str) -> list[int]:
        words = reading(text).lower()
        return [place for _, _, place in process.extract(words, lowered, scorer=fuzz.WRatio, limit=TOP)]

    return find


def fzf_finder(lines: list[str], reading: Callable[[str], str]) -> Finder:
    """fzf ranks the lines given to it on its standard input; its process is part of its price."""
    given = "\n".join(f"{place}\t{line}" for place, line in enumerate(lines)).encode()

    def find(text: str) -> list[int]:
        ran = subprocess.run(
            ["fzf", "--delimiter=\t", "--with-nth=2..", "--nth=1..", "-i", "--filter", reading(text)],
            input=given,
            capture_output=True,
            check=False,
        )
        return [int(row.split(b"\t", 1)[0]) for row in ran.stdout.splitlines()[:TOP]]

    return find


def sqlite_finder(lines: list[str], reading: Callable[[str], str]) -> Finder:
    """Any of the words (of three letters or more, as trigrams need), best first by bm25."""
    store = sqlite3.connect(":memory:")
    store.execute("CREATE VIRTUAL TABLE stock USING fts5(line, tokenize='trigram')")
    store.executemany("INSERT INTO stock(rowid, line) VALUES (?, ?)", enumerate(lines))

    def find(text: str) -> list[int]:
        words = [word.replace('"', '""') for word in reading(text).split() if len(word) >= 3]
        if not words:
            return []
        match = " OR ".join(f'"{word}"' for word in words)
        query = "SELECT rowid FROM stock WHERE stock MATCH ? ORDER BY rank LIMIT ?"
        return [row for (row,) in store.execute(query, (match, TOP))]

    return find


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
