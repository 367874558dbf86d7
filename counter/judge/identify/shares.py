"""Shares by Bayes in log space: what was seen against every stamp of every issue at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import exp, log
from operator import add

from counter.judge.identify.model import Model
from counter.judge.observation import Observation


@dataclass(frozen=True, slots=True)
class Shares:
    """`variants` in the model's order, `issues` by id, `none_of_these` the rest; all sum to 1."""

    variants: tuple[float, ...]
    issues: dict[str, float]
    none_of_these: float


#: Nothing below e to this power of the likeliest is worth an exponential.
_FAINT = -40.0


def _unsaid(observations: Sequence[Observation]) -> Iterator[str]:
    """What is seen and said first where it is there, and was not said: an overprint, a country."""
    said = {each.kind for each in observations}
    if said and "overprint" not in said:
        yield "overprint"
    regional = any(each.kind == "series" and each.value == "regional" for each in observations)
    if said and "country" not in said and not regional:
        yield "country"


def weigh(observations: Sequence[Observation], model: Model) -> Shares:
    """The share of every stamp, given the observations (already reduced by `weighable`)."""
    rows = [model.row(each.kind, each.value) for each in observations]
    outside_prior = model.stamps.errors.figures["none_of_these"]
    logs: Sequence[float] = model.prior_logs
    for row in rows:
        logs = list(map(add, logs, row.logs))
    for kind in _unsaid(observations):
        logs = list(map(add, logs, model.unsaid_logs[kind]))
    outside = log(outside_prior) + sum(log(row.outside) for row in rows)
    most = max(max(logs), outside)
    faint = most + _FAINT
    weights = [exp(each - most) if each > faint else 0.0 for each in logs]
    beside = exp(outside - most)
    whole = sum(weights) + beside
    shares = tuple(weight / whole for weight in weights)
    issues = {
        name: shares[start] if end - start == 1 else sum(shares[start:end])
        for name, (start, end) in model.spans.items()
    }
    return Shares(shares, issues, beside / whole)
