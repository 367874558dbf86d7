"""Shares by Bayes in log space: what was seen against every stamp of every issue at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log
from operator import add

from counter.judge.identify.evidence import Clue
from counter.judge.identify.model import Model


@dataclass(frozen=True, slots=True)
class Shares:
    """`variants` in the model's order, `issues` by id, `none_of_these` the rest; all sum to 1."""

    variants: tuple[float, ...]
    issues: dict[str, float]
    none_of_these: float


#: Nothing below e to this power of the likeliest is worth an exponential.
_FAINT = -40.0


def weigh(seen: Sequence[Clue], model: Model) -> Shares:
    """The share of every stamp, given the evidence; before any, the priors."""
    rows = [model.row_of(each) for each in seen]
    logs: Sequence[float] = model.silent(_spoken(seen, model)) if seen else model.prior_logs
    for row in rows:
        logs = list(map(add, logs, row.logs))
    outside = log(model.stamps.errors.figures["none_of_these"]) + sum(log(row.outside) for row in rows)
    return _shares(logs, outside, model)


def _spoken(seen: Sequence[Clue], model: Model) -> frozenset[str]:
    """The kinds that were spoken of; who says regional has spoken of a country."""
    kinds = {each.kind for each in seen}
    if any(each.value == "regional" for each in seen):
        kinds.add("country")
    return frozenset(kinds & model.stamps.errors.unsaid_kinds)


def _shares(logs: Sequence[float], outside: float, model: Model) -> Shares:
    most = max(max(logs), outside)
    faint = most + _FAINT
    weights = [exp(each - most) if each > faint else 0.0 for each in logs]
    beside = exp(outside - most)
    whole = sum(weights) + beside
    scale = 1 / whole
    shares = tuple([weight * scale for weight in weights])
    issues = dict(zip(model.spans, map(sum, map(shares.__getitem__, model.slices)), strict=True))
    return Shares(shares, issues, beside / whole)
