"""The chart of a cover: when its stamp, plate, cancel and rate were in use, and its own date across."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from counter.judge.cover.cancels import CancelSeen, in_use, ink_right
from counter.judge.cover.case import Case
from counter.judge.cover.cover_facts import CoverSeen, StampDates
from counter.judge.cover.in_use import earliest_of, latest_of
from counter.judge.cover.rate_records import record_for
from counter.reference.postal import Postal
from counter.reference.postal_marks import Cancel
from counter.values.dates import When

_MARGIN = timedelta(days=270)


@dataclass(frozen=True, slots=True)
class Bar:
    """One stretch of the chart; one that `fades` may go on beyond its last day (a stamp that gave
    way to another stayed valid, the end of a plate is not known)."""

    label: str
    first: date
    last: date
    source: str
    fades: bool = False

    def holds(self, when: When | None) -> bool:
        """Whether the cover's date may lie within."""
        if when is None:
            return True
        return when.latest >= self.first and (self.fades or when.earliest <= self.last)


@dataclass(frozen=True, slots=True)
class Timeline:
    """The bars and the cover's date; `start` and `end` bound the chart."""

    bars: tuple[Bar, ...]
    when: When | None
    start: date
    end: date


def timeline(postal: Postal, seen: CoverSeen) -> Timeline | None:
    """The chart of a cover, or None when nothing on it has a date."""
    bars = [
        *_stamp_bars(seen.stamps, seen.when),
        *(bar for each in Case(postal, seen).cancels for bar in _cancel_bars(postal, each, seen.when)),
        *_rate_bars(postal, seen),
    ]
    days = [day for bar in bars for day in (bar.first, bar.last)]
    if seen.when:
        days += [seen.when.earliest, seen.when.latest]
    if not days:
        return None
    return Timeline(tuple(bars), seen.when, *_span(bars, seen.when, days))


def _span(bars: list[Bar], when: When | None, days: list[date]) -> tuple[date, date]:
    """The years worth drawing: round the cover's date and the nearest ends of the bars."""
    if when is None:
        return min(days) - _MARGIN, max(days) + _MARGIN
    near = [min((bar.first, bar.last), key=lambda day: abs(day - when.earliest)) for bar in bars]
    start = min([when.earliest, *near]) - _MARGIN
    end = max([when.latest, *near]) + _MARGIN
    return start, end


def _stamp_bars(stamps: tuple[StampDates, ...], when: When | None) -> list[Bar]:
    bars: list[Bar] = []
    drawn = (latest_of(stamps, when) or earliest_of(stamps)) if when else None
    for stamp in [drawn] if drawn else stamps[:1]:
        first, gone = stamp.valid or stamp.issued, stamp.superseded
        if first:
            begins = first.when.earliest
            ends = max(begins, gone.when.latest) if gone else begins
            bars.append(Bar(stamp.name, begins, ends, first.source, fades=True))
        if stamp.plate_days:
            known = stamp.plate_days[0].fact
            on = known.when.earliest
            bars.append(Bar(f"plate {stamp.plate}", on, on, known.source, fades=True))
    return bars


def _cancel_bars(postal: Postal, seen: CancelSeen, when: When | None) -> list[Bar]:
    """The kind that the checks judged it to be; without a date, or for a cross whose ink nobody
    named, the ordinary kinds it may be."""
    kinds = [each for each in postal.cancels.values() if seen.family in (each.family, each.id)]
    if seen.colour and kinds and not any(seen.colour in each.colours for each in kinds):
        return [_whole_family(kinds)]
    no_ink = seen.family == "maltese_cross" and not (seen.colour or seen.number or seen.type)
    if when and seen.family and not no_ink:
        judged = ink_right(postal, seen, when) if seen.colour else in_use(postal, seen, when)
        kinds = [postal.cancels[judged.record]] if judged.record else kinds[:1]
    else:
        kinds = [each for each in kinds if not each.exceptional][:2]
    return [
        Bar(
            _label(kind, seen.colour),
            date.fromisoformat(kind.first),
            date.fromisoformat(kind.last),
            kind.source,
        )
        for kind in kinds
    ]


def _whole_family(kinds: list[Cancel]) -> Bar:
    """For an ink that no kind of it was ever recorded in: from the first day of any to the last."""
    first, last = min(kind.first for kind in kinds), max(kind.last for kind in kinds)
    name = kinds[0].family.replace("_", " ")
    return Bar(name, date.fromisoformat(first), date.fromisoformat(last), kinds[0].source)


def _label(kind: Cancel, colour: str) -> str:
    if kind.family != "maltese_cross":
        return kind.kind.split(" (")[0].split(",")[0]
    return (
        "numbered cross"
        if kind.first_number
        else f"{colour if colour in kind.colours else kind.colours[0]} cross"
    )


def _rate_bars(postal: Postal, seen: CoverSeen) -> list[Bar]:
    asked = Case(postal, seen).question
    if asked is None:
        return []
    rate, _ = record_for(postal, asked, asked.when.earliest)
    if rate is None:
        return []
    first, last = date.fromisoformat(rate.first), date.fromisoformat(rate.last)
    return [Bar("rate", first, last, rate.source)]
