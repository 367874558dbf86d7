"""How often the right issue stands first on hurried lines, and how far the shares can be trusted.

    python tests/benchmarks/stall_accuracy.py

The lines come from stall_lines.py, which knows nothing of how the identifier weighs. Printed for each
seed: hit@1 (a tie is shared out), the mean share of the first and of the truth, Brier score, log loss,
calibration error (ten bins of the first's share), and what the first look proposed brings the truth,
beside a look at random and the best with hindsight.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from math import log
from statistics import mean

from stall_lines import Line, lines

from counter.judge.identify import identify, next_looks
from counter.reference.stamps import Stamps
from counter.reference.stamps_reader import read_stamps

SEEDS = ((7, 2000), (1840, 1000), (1864, 1000))
_LOOKED = 120


@dataclass
class Score:
    """One line answered."""

    hit: float
    first: float
    truth: float
    brier: float
    wrong: int


def answered(line: Line, stamps: Stamps) -> Score:
    """The identifier's answer to a line, scored."""
    found = identify(line.reading(), stamps)
    shares = found.shares
    most = max(shares.values())
    tied = [name for name, share in shares.items() if share >= most - 1e-6]
    brier = sum((share - (name == line.issue)) ** 2 for name, share in shares.items())
    brier = (brier + found.none_of_these**2) / 2
    hit = (line.issue in tied) / len(tied)
    return Score(hit, most, shares[line.issue], brier, len(line.wrong))


def calibration_error(scores: Sequence[Score], bins: int = 10) -> float:
    """Mean distance of what is said from what is so, over bins of the first's share."""
    held: dict[int, list[Score]] = {}
    for each in scores:
        held.setdefault(min(int(each.first * bins), bins - 1), []).append(each)
    away = (
        len(each) * abs(mean(s.first for s in each) - mean(s.hit for s in each))
        for each in held.values()
    )
    return sum(away) / len(scores)


def summary(title: str, scores: Sequence[Score]) -> str:
    """One row of the table."""
    loss = mean(-log(max(each.truth, 1e-6)) for each in scores)
    return (
        f"{title:16} n {len(scores):5}  hit@1 {mean(s.hit for s in scores):.3f}  "
        f"first {mean(s.first for s in scores):.3f}  truth {mean(s.truth for s in scores):.3f}  "
        f"Brier {mean(s.brier for s in scores):.3f}  log loss {loss:.2f}  "
        f"calibration error {calibration_error(scores):.3f}"
    )


def reliability(scores: Sequence[Score]) -> str:
    """What is said, and how often it is so."""
    rows = []
    for step in range(10):
        held = [s for s in scores if step <= s.first * 10 < step + 1 or (step == 9 and s.first >= 1)]
        if held:
            rows.append(f"{mean(s.first for s in held):.2f} → {mean(s.hit for s in held):.2f}")
    return "says → is right: " + ", ".join(rows)


def looked(made: Sequence[Line], stamps: Stamps, seed: int) -> tuple[float, float, float, int]:
    """What the truth gains by the look proposed, by one at random, by the best; lines without a look."""
    luck = random.Random(seed)
    proposed, chance, best, silent = [], [], [], 0
    for line in made:
        found = identify(line.reading(), stamps)
        if max(found.shares.values()) >= 0.95:
            continue
        looks = next_looks(line.reading(), stamps, most=1)
        silent += not looks
        before = found.shares[line.issue]
        kinds = [look.kind for look in stamps.errors.looks if not look.wets]
        gains = {
            kind: identify(line.reading(**{kind: line.unsaid[kind]}), stamps).shares[line.issue]
            - before
            for kind in dict.fromkeys(kinds)
            if kind in line.unsaid
        }
        if not gains:
            continue
        proposed.append(gain_of(looks[0], line, stamps, before) if looks else 0.0)
        chance.append(luck.choice(list(gains.values())))
        best.append(max(gains.values()))
        if len(proposed) == _LOOKED:
            break
    return mean(proposed), mean(chance), mean(best), silent


def gain_of(look: object, line: Line, stamps: Stamps, before: float) -> float:
    """What the true answer to a look brings the truth; nothing where the stamp has no answer."""
    kind = look.kind  # type: ignore[attr-defined]
    answer = line.unsaid.get(kind) or line.said.get(kind, "")
    if not answer:
        return 0.0
    return identify(line.reading(**{kind: answer}), stamps).shares[line.issue] - before


def main() -> None:
    stamps = read_stamps()
    every: list[Score] = []
    for seed, count in SEEDS:
        made = lines(stamps, count, seed)
        scores = [answered(line, stamps) for line in made]
        every += scores
        print(summary(f"seed {seed}", scores))
        for title, kept in (("nothing wrong", (0,)), ("one wrong", (1,)), ("more wrong", (2, 3, 4, 5))):
            some = [each for each in scores if each.wrong in kept]
            print(summary(f"  {title}", some))
        print("  " + reliability(scores))
        first, chance, best, silent = looked(made, stamps, seed)
        print(
            f"  next look: the truth gains {first:.2f}, by one at random {chance:.2f}, with hindsight "
            f"{best:.2f}; {first / chance:.1f} times chance; no look offered in {silent}"
        )
    print(summary("all seeds", every))
    print("  " + reliability(every))


if __name__ == "__main__":
    main()
