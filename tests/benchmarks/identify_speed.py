"""How long one evaluation of all issues takes, and what the look-ahead costs.

    python tests/benchmarks/identify_speed.py

A peer is timed in the same run: the bare sum of the log tables in NumPy, which is what the
arithmetic alone costs in a compiled library. Times are of this process's own work, so that other
programs on the machine do not count; the clock on the wall is printed for the main figure too.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from statistics import quantiles

import numpy as np
from identify_cases import clean, reading

from counter.judge.identify import identify, next_looks
from counter.judge.identify.evidence import evidence_of
from counter.judge.identify.model import model_of
from counter.judge.identify.shares import weigh
from counter.reference.stamps_reader import read_stamps


def timed(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return (time.process_time() - start) * 1000


def on_the_wall(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def show(title: str, times: list[float], base: float | None = None) -> float:
    steps = quantiles(times, n=100)
    ratio = f"   {steps[94] / base:6.1f} x" if base else ""
    print(f"{title:42} median {steps[49]:7.3f} ms   p95 {steps[94]:7.3f} ms{ratio}")
    return steps[94]


def main() -> None:
    stamps = read_stamps()
    model = model_of(stamps)
    luck = random.Random(1840)
    lines = []
    for variant in luck.choices(model.variants, k=400):
        said = clean(variant, model, luck)
        kept = luck.sample(list(said), min(len(said), luck.randint(2, 8)))
        lines.append(reading({kind: said[kind] for kind in kept}))
    first = [timed(lambda line=line: identify(line, stamps)) for line in lines]
    again = [timed(lambda line=line: identify(line, stamps)) for line in lines]
    only = [
        timed(lambda line=line: weigh(evidence_of(line.observations, model.stamps.errors), model))
        for line in lines
    ]
    made = {
        each: np.array(model.row_of(each).logs)
        for line in lines
        for each in evidence_of(line.observations, stamps.errors)
    }

    def bare(line: object) -> object:
        seen = evidence_of(line.observations, model.stamps.errors)  # type: ignore[attr-defined]
        logs = sum(made[each] for each in seen)
        weights = np.exp(logs - logs.max())
        return weights / weights.sum()

    numpy = [timed(lambda line=line: bare(line)) for line in lines]
    base = show("sum of the tables alone, NumPy", numpy)
    show("shares of all issues", only, base)
    show("identify with reasons, tables made", again, base)
    show("identify with reasons, first time typed", first, base)
    wall = [on_the_wall(lambda line=line: identify(line, stamps)) for line in lines]
    show("identify with reasons, by the clock", wall)
    ahead = [timed(lambda line=line: next_looks(line, stamps)) for line in lines]
    show("next looks, first time", ahead, base)
    show(
        "next looks, again", [timed(lambda line=line: next_looks(line, stamps)) for line in lines], base
    )
    print(f"{len(model.variants)} stamps of {len(model.spans)} issues, {len(model.rows)} tables kept")


if __name__ == "__main__":
    main()
