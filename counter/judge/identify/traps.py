"""What the first candidate is taken for, or is made from: reprints, altered figures, made-up pieces."""

from __future__ import annotations

from counter.judge.identify.examine import Identification
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_records import Lookalike

#: A false plate number is a trap where the issue it pretends to is in the running at all.
_THERE = 0.01
#: A first candidate below this share is no answer yet, and its lookalikes are nobody's trap.
_LEADS = 0.3


def traps_of(found: Identification, reading: Reading, stamps: Stamps) -> tuple[Lookalike, ...]:
    """Each lookalike of the first candidate with what shows it; those of the plate seen stand first.

    One that pretends to a plate is a trap only where that plate was read, of the first candidate or not.
    """
    first = found.candidates[0] if found.candidates else None
    if first is None:
        return ()
    plates = {plate for seen in reading.every("plate") for plate in seen.value.split("|")}
    told: list[tuple[bool, Lookalike]] = []
    for each in stamps.lookalikes.values():
        most = max(found.shares.get(name, 0.0) for name in each.looks_like)
        if each.plate and each.plate in plates and most >= _THERE:
            told.append((False, each))
        elif not each.plate and first.issue_id in each.looks_like and first.share >= _LEADS:
            told.append((True, each))
    return tuple(each for _, each in sorted(told, key=lambda pair: pair[0]))
