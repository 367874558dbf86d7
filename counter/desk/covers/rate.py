"""What the cover's journey cost, which weights explain the franking, what a service would add."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from counter.desk.covers.case import CoverCase
from counter.judge.cover.case import Case
from counter.judge.cover.question import RateAnswer, RateQuestion
from counter.judge.cover.rates import rate_for
from counter.judge.cover.weights import has_open_scale, weights_paying


@dataclass(frozen=True, slots=True)
class CoverRate:
    """The rate asked for, its answer, the weights that explain the franking, other ways to go.

    `weights` is one sentence, "" without a franking; `beside` are (way, answer).
    """

    asked: RateQuestion
    answer: RateAnswer
    weights: str
    beside: tuple[tuple[str, RateAnswer], ...]


def rate_of(case: CoverCase) -> CoverRate | None:
    """The rate of a cover; None until its date is known."""
    postal = case.library.postal
    asked = Case(postal, case.seen).question
    if asked is None:
        return None
    answer = rate_for(postal, asked)
    beside = tuple((way, rate_for(postal, other)) for way, other in _other_ways(asked))
    return CoverRate(asked, answer, _weights(case, asked), beside)


def _other_ways(asked: RateQuestion) -> Iterator[tuple[str, RateQuestion]]:
    """The services that would have cost more; an answer that hangs on the weight waits for it."""
    if asked.ounces is None and asked.miles is None:
        return
    if asked.service != "registered":
        yield "registered", replace(asked, service="registered")
    if not asked.unpaid:
        yield "nothing prepaid", replace(asked, unpaid=True)
    yield "redirected once", replace(asked, redirected=1)
    if not asked.late_at:
        yield "handed in late", replace(asked, late_at="late")


def _weights(case: CoverCase, asked: RateQuestion) -> str:
    paid = case.seen.paid
    if paid is None:
        return ""
    day = asked.when.earliest
    spans = weights_paying(case.library.postal, asked, day, paid)
    if spans:
        return f"{paid.words()} alone pays {' or '.join(span.words() for span in spans)}."
    if has_open_scale(case.library.postal, asked, day):
        return f"Which weights {paid.words()} paid is not established."
    return f"{paid.words()} alone pays no weight that is recorded."
