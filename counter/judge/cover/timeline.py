"""The chart of a cover: when its stamp, plate, cancel and rate were in use, and its own date across."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from counter.judge.cover.cancels import CancelSeen
from counter.judge.cover.case import Case
from counter.judge.cover.rates import record_for
from counter.judge.cover.seen import CoverSeen, StampDates
from counter.reference.postal import Postal
from counter.reference.postal_marks import Cancel
from counter.values.dates import When

_MARGIN = timedelta(days=270)


@dataclass(frozen=True, slots=True)
class Bar:
    """One stretch of the chart; `open_end` where its end is not known or lies far on."""

    label: str
    first: date
    last: date
    source: str
    open_end: bool = False

    def holds(self, when: When | None) -> bool:
        """Whether the cover's date may lie within."""
        return when is None or (when.latest >= self.first and when.earliest <= self.last)


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
        *_stamp_bars(seen.stamps),
        *_cancel_bars(postal, Case(postal, seen).cancel),
        *_rate_bars(postal, seen),
    ]
    days = [day for bar in bars for day in (bar.first, *(() if bar.open_end else (bar.last,)))]
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


def _stamp_bars(stamps: tuple[StampDates, ...]) -> list[Bar]:
    bars: list[Bar] = []
    for stamp in stamps[:1]:
        first = stamp.valid or stamp.issued
        if first:
            last = stamp.superseded
            until = last.when.latest if last else date(1980, 12, 31)
            if until >= first.when.earliest:
                bars.append(Bar(stamp.name, first.when.earliest, until, first.source, last is None))
        if stamp.pressed:
            on = stamp.pressed.when.earliest
            bars.append(Bar(f"plate {stamp.plate}", on, date(1980, 12, 31), stamp.pressed.source, True))
    return bars


def _cancel_bars(postal: Postal, seen: CancelSeen) -> list[Bar]:
    kinds = [each for each in postal.cancels.values() if _drawn(each, seen)]
    return [
        Bar(
            _cancel_label(kind),
            date.fromisoformat(kind.first),
            date.fromisoformat(kind.last),
            kind.source,
        )
        for kind in kinds[:2]
    ]


def _drawn(kind: Cancel, seen: CancelSeen) -> bool:
    if seen.type in (kind.id, "") and seen.family in (kind.family, kind.id):
        numbered = kind.id == "mx_numbered"
        if seen.family == "maltese_cross" and numbered != bool(seen.number):
            return False
        fits = not seen.colour or seen.colour in kind.colours
        here = not seen.region or "any" in kind.regions or seen.region in kind.regions
        return bool(seen.type) or (fits and (here or numbered) and not kind.exceptional)
    return False


def _cancel_label(kind: Cancel) -> str:
    return f"{kind.colours[0]} cross" if kind.family == "maltese_cross" else kind.kind.split(",")[0]


def _rate_bars(postal: Postal, seen: CoverSeen) -> list[Bar]:
    asked = Case(postal, seen).question
    if asked is None:
        return []
    rate, _ = record_for(postal, asked, asked.when.earliest)
    if rate is None:
        return []
    first, last = date.fromisoformat(rate.first), date.fromisoformat(rate.last)
    return [Bar("rate", first, last, rate.source)]
