"""How often the identification is right, how honest its shares are, how short the next looks.

    python tests/benchmarks/identify_accuracy.py

Prints: accuracy on generated cases (clean, one observation missing, one wrong), calibration, and
the next looks beside an exhaustive one-step search and the entropy bound. Entropies are taken with
scipy.stats.entropy (SciPy, outside reference), so the judge's own are not used to judge it.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from statistics import mean

from identify_cases import allowed, clean, reading, spoil
from scipy.stats import entropy

from counter.judge.identify import identify, next_looks
from counter.judge.identify.evidence import Clue
from counter.judge.identify.likelihood import STATES, seen_given
from counter.judge.identify.model import Model, model_of
from counter.judge.identify.shares import weigh
from counter.judge.identify.variants import Variant
from counter.reference.stamps_reader import read_stamps

SEED = 1840


def accuracy(model: Model) -> None:
    luck = random.Random(SEED)
    names = list(model.spans)
    for title in ("clean", "one missing", "one wrong"):
        right = exact = cases = 0
        sizes, misses = [], []
        for name in names * 3:
            variant = luck.choice(model.variants[slice(*model.spans[name])])
            said = clean(variant, model, luck)
            if title == "one missing":
                said.pop(luck.choice(list(said)))
            could_be = allowed(said, model)
            assert name in could_be, (name, said)
            if title == "one wrong":
                said, _ = spoil(said, model, luck)
            answer = identify(reading(said), model.stamps)
            first = answer.candidates[0].issue_id
            cases += 1
            right += first in could_be
            exact += first == name
            sizes.append(len(could_be))
            if first not in could_be:
                misses.append(name)
        print(
            f"{title:12} {cases} cases: truth or its declared set first {right / cases:.1%}; "
            f"the very issue {exact / cases:.1%}; declared set {mean(sizes):.2f} issues on average"
        )
        if misses:
            print(f"             missed: {', '.join(sorted(set(misses)))}")


def sparse(model: Model, kept: int) -> None:
    """As many observations as a line holds, one of them wrong."""
    luck = random.Random(SEED + kept)
    right = cases = 0
    for name in list(model.spans) * 3:
        variant = luck.choice(model.variants[slice(*model.spans[name])])
        said = clean(variant, model, luck)
        chosen = ["denomination", *luck.sample([k for k in said if k != "denomination"], kept - 1)]
        said = {kind: said[kind] for kind in chosen if kind in said}
        could_be = allowed(said, model)
        said, _ = spoil(said, model, luck)
        found = identify(reading(said), model.stamps).candidates  # none where it is stationery
        right += bool(found) and found[0].issue_id in could_be
        cases += 1
    print(f"{kept} observations, one wrong: {right / cases:.1%} of {cases}")


def calibration(model: Model) -> None:
    """Stamps drawn as likely as the prior says, each observation misread as often as the model
    says: an answer of 0.8 to 1 must be right at least as often."""
    luck = random.Random(SEED + 1)
    places = luck.choices(range(len(model.variants)), model.prior, k=3000)
    bins: dict[int, list[tuple[float, bool]]] = {}
    for place in places:
        variant = model.variants[place]
        said = clean(variant, model, luck)
        kinds = luck.sample(list(said), min(len(said), luck.randint(2, 6)))
        heard = {kind: misheard(kind, said[kind], variant, model, luck) for kind in kinds}
        top = identify(reading(heard), model.stamps).candidates[0]
        bins.setdefault(min(int(top.share * 5), 4), []).append(
            (top.share, top.issue_id == variant.issue.id)
        )
    print("calibration (share given: how often right)")
    for step in sorted(bins):
        rows = bins[step]
        print(
            f"  {step / 5:.1f}-{step / 5 + 0.2:.1f}: {len(rows):5} answers, mean share "
            f"{mean(share for share, _ in rows):.3f}, right {mean(hit for _, hit in rows):.3f}"
        )


def misheard(kind: str, value: str, variant: Variant, model: Model, luck: random.Random) -> str:
    """The value as said, wrong as often as the error model says."""
    errors = model.stamps.errors
    if kind not in STATES:
        return value
    every = {state for each in model.variants for state in model.possible(kind, each)} | {value}
    values = sorted(every | set(errors.seen_as.get((kind, value), {})))
    return luck.choices(values, [seen_given(kind, value, each, errors) for each in values])[0]


def looks(model: Model) -> None:
    """From a blank line to a decided issue: the judge's looks and the exhaustive ones.

    The bound: to name one issue of an uncertain set takes at least its entropy in bits. What the
    looks promised (their expected bits, summed on the way) is set beside the entropy taken out.
    """
    ours, best, promised, gone = [], [], [], []
    for start, end in model.spans.values():
        variant = model.variants[(start + end) // 2]
        count, bits, drop = walk(variant, model, judged)
        ours.append(count)
        promised.append(bits)
        gone.append(drop)
        best.append(walk(variant, model, exhaustive)[0])
    bound = entropy_of((), model)
    print(
        f"next looks from a blank line, {len(ours)} issues: {mean(ours):.2f} on average; exhaustive "
        f"one-step search {mean(best):.2f}; ratio {mean(ours) / mean(best):.3f}"
    )
    print(
        f"entropy at the start {bound:.2f} bits; bits the looks promised {mean(promised):.2f} "
        f"({mean(promised) / bound:.1%}); entropy taken out {mean(gone):.2f} ({mean(gone) / bound:.1%})"
    )


Said = tuple[tuple[str, str], ...]
Choice = tuple[str, float]  # the kind to look at, and the bits expected of it


def walk(
    variant: Variant, model: Model, choose: Callable[[Said, Model], Choice]
) -> tuple[int, float, float]:
    """Looks taken until an issue has nine tenths or nothing is left; bits expected; entropy gone."""
    said: Said = ()
    luck = random.Random(variant.issue.id)
    promised, before = 0.0, entropy_of(said, model)
    for _ in range(30):
        kind, bits = choose(said, model)
        if not kind or decided(said, model):
            break
        states = model.possible(kind, variant)
        said += ((kind, luck.choice(states) if states else "none"),)
        promised += bits
    return len(said), promised, before - entropy_of(said, model)


def decided(said: Said, model: Model) -> bool:
    return max(weigh(observed(said), model).issues.values()) > 0.9


def observed(said: Said) -> tuple[Clue, ...]:
    return tuple(Clue(kind, value, value) for kind, value in said)


def entropy_of(said: Said, model: Model) -> float:
    return float(entropy(list(weigh(observed(said), model).issues.values()), base=2))


def judged(said: Said, model: Model) -> Choice:
    found = next_looks(reading(said), model.stamps, most=1)
    return (found[0].kind, found[0].bits) if found else ("", 0.0)


_kept: dict[Said, Choice] = {}


def exhaustive(said: Said, model: Model) -> Choice:
    """Try every look and every answer, weigh all issues again after each, keep the best look."""
    if said in _kept:
        return _kept[said]
    shares = weigh(observed(said), model)
    now = entropy(list(shares.issues.values()), base=2)
    done = {kind for kind, _ in said}
    best: Choice = ("", 0.02)
    for look in model.stamps.errors.looks:
        if look.kind in done or look.wets:
            continue
        gain = expected_gain(look.kind, said, shares.variants, now, model)
        if gain > best[1]:
            best = (look.kind, gain)
    _kept[said] = best
    return best


def expected_gain(kind: str, said: Said, shares: Sequence[float], now: float, model: Model) -> float:
    values = {
        value
        for share, variant in zip(shares, model.variants, strict=True)
        if share > 1e-5
        for value in model.possible(kind, variant)
    }
    if len(values) < 2 or (kind == "plate" and len(values) > 12):
        return 0.0
    rows = {value: model.row(kind, value).chances for value in values}
    weights = {
        value: sum(s * c for s, c in zip(shares, row, strict=True)) for value, row in rows.items()
    }
    whole = sum(weights.values())
    after = sum(
        weight / whole * entropy_of((*said, (kind, value)), model) for value, weight in weights.items()
    )
    return now - after


if __name__ == "__main__":
    model = model_of(read_stamps())
    accuracy(model)
    for kept in (5, 7):
        sparse(model, kept)
    calibration(model)
    looks(model)
