"""First days: when each value, colour, watermark and band of an issue was first sold, and who says so."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from counter.reference.stamps_issue import Issue, OtherDate, Stamp


@dataclass(frozen=True, slots=True)
class FirstDay:
    """The first day of one stamp of an issue. `issued` is ISO, whole or part.

    `band` says the phosphor or graphite in words, `bands` in values of the phosphor observation.
    `countries` are those of a regional stamp. `others` are days that other sources give. Where
    `confidence` is "memory" no source was read for the day: it may caution and decides nothing.
    """

    id: str
    issue: str
    value: str
    colours: tuple[str, ...]
    issued: str
    source: str
    confidence: str
    countries: tuple[str, ...] = ()
    watermark: str = ""
    band: str = ""
    bands: tuple[str, ...] = ()
    paper: str = ""
    dies: str = ""
    sold_in: str = ""
    withdrawn: str = ""
    others: tuple[OtherDate, ...] = ()
    also: tuple[str, ...] = ()
    note: str = ""

    @property
    def recalled(self) -> bool:
        """Whether the day rests on no source that was read."""
        return self.confidence == "memory"


def with_days(issue: Issue, days: Iterable[FirstDay]) -> Issue:
    """The issue with the days of its stamps; where it lists no stamps they are those of the days."""
    known = tuple(days)
    if not known:
        return issue
    told = issue.characters
    stamps = tuple(_dated(each, told.stamps, known) for each in told.stamps) or _stamps_of(known)
    return replace(issue, characters=replace(told, stamps=stamps))


def days_of(stamp: Stamp, days: Iterable[FirstDay]) -> tuple[FirstDay, ...]:
    """The days of one stamp by value, colour and watermark, the earliest first."""
    found = [
        each
        for each in days
        if each.value == stamp.value
        and (not stamp.colours or set(stamp.colours) & set(each.colours))
        and (not stamp.watermarks or not each.watermark or each.watermark in stamp.watermarks)
    ]
    return tuple(sorted(found, key=lambda each: each.issued))


def _dated(stamp: Stamp, beside: tuple[Stamp, ...], days: tuple[FirstDay, ...]) -> Stamp:
    found = days_of(stamp, days)
    if not found and sum(each.value == stamp.value for each in beside) == 1:
        found = days_of(replace(stamp, colours=()), days)
    if not found:
        return stamp
    return replace(
        stamp, issued=found[0].issued, recalled=found[0].recalled, countries=_countries(found)
    )


def _stamps_of(days: tuple[FirstDay, ...]) -> tuple[Stamp, ...]:
    """One stamp a value and first colour, in the order of the days."""
    groups: dict[tuple[str, str], list[FirstDay]] = {}
    for each in days:
        groups.setdefault((each.value, each.colours[0]), []).append(each)
    return tuple(_stamp_of(each) for each in groups.values())


def _stamp_of(days: list[FirstDay]) -> Stamp:
    first = min(days, key=lambda each: each.issued)
    colours = tuple(dict.fromkeys(colour for each in days for colour in each.colours))
    return Stamp(
        first.value, colours, first.issued, recalled=first.recalled, countries=_countries(days)
    )


def _countries(days: Iterable[FirstDay]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for each in days for name in each.countries))
