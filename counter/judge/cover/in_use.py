"""Of the issues that a stamp may be, the one that was in use on the day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from counter.judge.cover.cover_facts import StampDates
from counter.values.dates import When

#: Years after a stamp was superseded to which a use is ordinary (trade habit, no published figure).
ORDINARY = 2


def begun_by(stamps: Iterable[StampDates], when: When) -> list[StampDates]:
    """Those that may have existed on the day."""
    return [each for each in stamps if each.issued and each.issued.when.compared(when) != "after"]


def latest_of(stamps: Iterable[StampDates], when: When) -> StampDates | None:
    """Of the likely ones that existed, the one longest in use; None when none of them existed."""
    begun = begun_by(stamps, when)
    likely = [each for each in begun if each.likely] or begun
    return max(likely, key=_gone, default=None)


def earliest_of(stamps: Iterable[StampDates]) -> StampDates | None:
    """The one that was issued first; None when no date of issue is known."""
    return min((each for each in stamps if each.issued), key=_begun, default=None)


def years_after(stamp: StampDates, when: When) -> float:
    """Years since it gave way to another; below 0 while it was current, or if that is not known."""
    if stamp.superseded is None:
        return -1.0
    return (when.earliest - stamp.superseded.when.latest).days / 365.25


def _begun(stamp: StampDates) -> date:
    return stamp.issued.when.earliest if stamp.issued else date.max


def _gone(stamp: StampDates) -> date:
    return stamp.superseded.when.latest if stamp.superseded else date.max
