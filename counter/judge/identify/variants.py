"""The stamps that are weighed: every denomination and colour of every issue, and its dates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Characters, Dated, Issue, Stamp

_LAST_USE = 1985.0  # a stamp never superseded in these records went on being used beyond them


@dataclass(frozen=True, slots=True)
class Variant:
    """One stamp of an issue. `first` and `last` are years with a fraction: when it may first
    have been used and when it was replaced; `soft` when either rests on memory."""

    issue: Issue
    stamp: Stamp
    watermarks: tuple[str, ...]
    first: float
    last: float
    soft: bool

    @property
    def characters(self) -> Characters:
        """The characters of its issue."""
        return self.issue.characters


def year_of(iso: str, *, end: bool = False) -> float:
    """A whole or partial ISO date as a year with a fraction: its first day, or its last."""
    parts = [int(part) for part in iso.split("-")]
    month = parts[1] if len(parts) > 1 else (12 if end else 1)
    day = parts[2] if len(parts) > 2 else (28 if end else 1)
    try:
        spot = date(parts[0], month, day)
    except ValueError:  # a day the month does not have: the month is still told
        spot = date(parts[0], min(max(month, 1), 12), 1)
    return parts[0] + (spot.timetuple().tm_yday - 1) / 365.25


def all_variants(stamps: Stamps, *, sets: bool = False) -> tuple[Variant, ...]:
    """Every stamp of every issue, issue by issue, those of the commemorative sets only on request; then
    what is no issued stamp and passes for one."""
    every = (
        *(each for each in stamps.issues.values() if sets or each.id not in stamps.sets),
        *stamps.hypotheses.values(),
    )
    return tuple(_variant(issue, stamp) for issue in every for stamp in issue.characters.stamps)


def _variant(issue: Issue, stamp: Stamp) -> Variant:
    told = issue.characters
    first = _year(told.issued, 1840.0)
    if stamp.issued[:4].isdigit():
        first = max(first, year_of(stamp.issued.split(" ")[0]))
    last = max(_year(told.superseded, _LAST_USE, end=True), first)
    soft = told.issued.memory or told.superseded.memory or stamp.recalled
    return Variant(issue, stamp, stamp.watermarks or told.watermarks, first, last, soft)


def _year(dated: Dated, otherwise: float, *, end: bool = False) -> float:
    iso = dated.latest if end else dated.earliest
    return year_of(iso, end=end) if iso else otherwise
