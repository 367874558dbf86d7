"""What an answer rests on: the one or two things seen that decide, and what it would be without them."""

from __future__ import annotations

from dataclasses import dataclass

from counter.judge.identify.case import case_of
from counter.judge.identify.examine import Candidate
from counter.judge.identify.shares import weigh
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps

#: More than two are not looked at again with a customer waiting.
_MOST = 2
#: A fall of the first's share below this is not worth a word.
_TELLING = 0.1
#: A first candidate below this share is decided by nothing yet.
_LEADS = 0.3


@dataclass(frozen=True, slots=True)
class Support:
    """A thing seen (`kind`, `words`) on which the first candidate rests. Had it been misread and were
    left out, `issue_id` (`name`) would stand first with `share` (0 to 1); it may be the same issue."""

    kind: str
    words: str
    issue_id: str
    name: str
    share: float


def rests_on(first: Candidate, reading: Reading, stamps: Stamps) -> tuple[Support, ...]:
    """The things seen without which the first candidate would fall furthest, at most two; none when
    each could be left out, or when nothing else was seen."""
    if first.share < _LEADS:
        return ()
    model, seen = case_of(reading, stamps)
    found: list[tuple[float, Support]] = []
    for each in seen:
        rest = tuple(other for other in seen if other is not each)
        if not rest:
            return ()
        shares = weigh(rest, model).issues
        leader = max(shares, key=lambda name: shares[name])
        fall = first.share - shares[first.issue_id]
        if fall >= _TELLING:
            name = model.variants[model.spans[leader][0]].issue.name
            found.append((fall, Support(each.kind, each.words, leader, name, shares[leader])))
    found.sort(key=lambda each: -each[0])
    return tuple(support for _, support in found[:_MOST])
