"""Fuzz one of the readers: whatever comes in, nothing but a sentence for the person may come out.

Run: python tests/benchmarks/fuzz.py ask --seconds 150 (the targets: ask, line, mend, words, csv,
journal, command).
With atheris (an optional tool for developers: pip install atheris) the search is guided by the coverage
of `counter`; without it hypothesis draws from the same seeds and words. A finding is printed and the
search goes on. What is found becomes an exact test.
"""

from __future__ import annotations

import argparse
import importlib
import sys
import tempfile
import time
import traceback
from contextlib import nullcontext
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

try:
    import atheris
except ImportError:
    atheris = None


class Watched:
    """Plays a target, remembers each failure by where it came from, and says so once time is up."""

    def __init__(self, target: Any, seconds: int) -> None:
        self.target = target
        self.began = time.monotonic()
        self.seconds = seconds
        self.runs = 0
        self.found: set[str] = set()
        self.told = False

    def __call__(self, data: bytes) -> None:
        self.runs += 1
        try:
            self.target.play(data)
        except Exception as fault:
            last = traceback.extract_tb(fault.__traceback__)
            key = f"{type(fault).__name__} at {last[-1].filename}:{last[-1].lineno}"
            if key not in self.found:
                self.found.add(key)
                print(f"FOUND {key}: {str(fault)[:300]}\n  from {data[:300]!r}", file=sys.stderr)
                traceback.print_exception(fault, limit=-4)
        if self.over and not self.told:
            self.tell()

    @property
    def over(self) -> bool:
        """Whether the time is up."""
        return time.monotonic() - self.began > self.seconds

    def tell(self) -> None:
        """The figures of the run."""
        self.told = True
        print(
            f"{self.target.name}: {self.runs:,} runs in {time.monotonic() - self.began:.0f} s, "
            f"{len(self.found)} findings",
            file=sys.stderr,
            flush=True,
        )


def guided(watched: Watched, longest: int, seed: int) -> None:
    """Search by coverage; libFuzzer prints the edges reached ("cov:") and ends the process."""
    folder = Path(tempfile.mkdtemp(prefix="fuzz-"))
    for number, each in enumerate(watched.target.seeds):
        (folder / f"seed{number}").write_bytes(each)
    words = folder.with_suffix(".words")
    lines = ("".join(f"\\x{byte:02x}" for byte in word.encode()) for word in watched.target.words)
    words.write_text("".join(f'"{line}"\n' for line in lines), "ascii")
    limits = [f"-max_total_time={watched.seconds + 1}", f"-max_len={longest}", f"-seed={seed}"]
    atheris.Setup([sys.argv[0], *limits, f"-dict={words}", "-timeout=30", str(folder)], watched)
    atheris.Fuzz()


def drawn(watched: Watched) -> None:
    """Draw bytes, and the target's own words in any order, until the time is up."""
    from hypothesis import HealthCheck, given, settings
    from hypothesis import strategies as st

    words = st.lists(st.sampled_from(watched.target.words), max_size=14)
    texts = st.one_of(words.map(" ".join), words.map("\n".join), st.text(max_size=80))
    inputs = st.one_of(st.binary(max_size=200), texts.map(lambda text: text.encode()))

    @settings(max_examples=2_000, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(inputs)
    def once(data: bytes) -> None:
        if not watched.over:
            watched(data)

    while not watched.over:
        once()


def main() -> None:
    """Fuzz for so long, then say how many runs and findings there were."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("target")
    parser.add_argument("--seconds", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1840)
    parser.add_argument("--longest", type=int, default=300, help="bytes of an input")
    parser.add_argument("--plain", action="store_true", help="hypothesis, even where atheris is there")
    chosen = parser.parse_args()
    by_coverage = atheris is not None and not chosen.plain
    with atheris.instrument_imports(include=["counter"]) if by_coverage else nullcontext():
        targets = importlib.import_module("tests.benchmarks.fuzz_seeds").TARGETS
    if chosen.target not in targets:
        parser.error(f"the targets are {', '.join(targets)}")
    watched = Watched(targets[chosen.target], chosen.seconds)
    for each in watched.target.seeds:
        watched(each)
    if by_coverage:
        guided(watched, chosen.longest, chosen.seed)
    else:
        drawn(watched)
        watched.told or watched.tell()


if __name__ == "__main__":
    main()
