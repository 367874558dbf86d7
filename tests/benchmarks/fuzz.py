"""Fuzz one of the readers: whatever comes in, nothing but a sentence for the person may come out.

Run: python tests/benchmarks/fuzz.py ask --seconds 150 (the targets: ask, looks, cover, line, mend,
words, csv, journal, command).
With atheris (an optional tool for developers: pip install atheris) the search is guided by the coverage
of `counter`; without it hypothesis draws from the same seeds and words. A finding is printed and the
search goes on. What is found becomes an exact test.

The search runs in a process of its own, which libFuzzer ends as it likes; all it writes is in one
folder, which goes when it ends or is stopped.
"""

from __future__ import annotations

import argparse
import importlib
import pkgutil
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from contextlib import nullcontext
from pathlib import Path
from types import FrameType
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
    folder = Path(tempfile.mkdtemp(prefix="found-"))
    for number, each in enumerate(watched.target.seeds):
        (folder / f"seed{number}").write_bytes(each)
    words = folder.with_suffix(".words")
    lines = ("".join(f"\\x{byte:02x}" for byte in word.encode()) for word in watched.target.words)
    words.write_text("".join(f'"{line}"\n' for line in lines), "ascii")
    limits = [f"-max_total_time={watched.seconds + 1}", f"-max_len={longest}", f"-seed={seed}"]
    limits.append("-len_control=10")  # on to longer inputs sooner than libFuzzer's own 100 would
    places = [f"-dict={words}", f"-artifact_prefix={folder}/", str(folder)]
    atheris.Setup([sys.argv[0], *limits, "-timeout=30", *places], watched)
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


def everything() -> dict[str, Any]:
    """The targets, once all of `counter` but its screens is imported, also what waits to be asked."""
    import counter

    for each in pkgutil.iter_modules(counter.__path__, "counter."):
        if each.ispkg and each.name != "counter.tui":
            package = importlib.import_module(each.name)
            for module in pkgutil.walk_packages(package.__path__, f"{each.name}."):
                importlib.import_module(module.name)
    targets: dict[str, Any] = importlib.import_module("tests.benchmarks.fuzz_seeds").TARGETS
    return targets


def search(chosen: argparse.Namespace) -> None:
    """Fuzz for so long, then say how many runs and findings there were."""
    tempfile.tempdir = chosen.place
    by_coverage = atheris is not None and not chosen.plain
    with atheris.instrument_imports(include=["counter"]) if by_coverage else nullcontext():
        targets = everything()
    if chosen.target not in targets:
        sys.exit(f"The targets are {', '.join(targets)}.")
    watched = Watched(targets[chosen.target], chosen.seconds)
    for each in watched.target.seeds:
        watched(each)
    if by_coverage:
        guided(watched, chosen.longest, chosen.seed)
    else:
        drawn(watched)
        if not watched.told:
            watched.tell()


def _stopped(number: int, frame: FrameType | None) -> None:
    sys.exit(128 + number)


def apart() -> int:
    """The search in a process and a folder of its own; both are gone afterwards, however it ends."""
    signal.signal(signal.SIGTERM, _stopped)
    quick = "/dev/shm" if Path("/dev/shm").is_dir() else None
    with tempfile.TemporaryDirectory(prefix="fuzz-", dir=quick, ignore_cleanup_errors=True) as place:
        child = subprocess.Popen([sys.executable, *sys.argv, "--place", place])
        try:
            return child.wait()
        except KeyboardInterrupt:
            return 128 + signal.SIGINT
        finally:
            child.kill()
            child.wait()


def main() -> None:
    """Read the command line; without --place the search gets a folder of its own."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("target")
    parser.add_argument("--seconds", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1840)
    parser.add_argument("--longest", type=int, default=300, help="bytes of an input")
    parser.add_argument("--plain", action="store_true", help="hypothesis, even where atheris is there")
    parser.add_argument("--place", help=argparse.SUPPRESS)
    chosen = parser.parse_args()
    if chosen.place:
        search(chosen)
    else:
        sys.exit(apart())


if __name__ == "__main__":
    main()
