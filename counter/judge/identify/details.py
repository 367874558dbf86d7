"""Which stamp of an issue it is, in fields: band, gum, country, set, and the first days that fit."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from counter.judge.identify.country import countries_seen
from counter.judge.judgement import Reason, Strength
from counter.judge.observation import Reading
from counter.reference.stamps import Stamps
from counter.reference.stamps_days import FirstDay, days_of
from counter.reference.stamps_issue import Stamp
from counter.reference.stamps_records import Commemorative
from counter.values.dates import When, read_date
from counter.values.errors import InputError


@dataclass(frozen=True, slots=True)
class Details:
    """What stands beside an issue's id. `band`, `gum` and `country` are "" where what was seen leaves
    several; `first_days` are those that fit, the earliest first; `set` for a commemorative alone."""

    band: str = ""
    gum: str = ""
    country: str = ""
    set: Commemorative | None = None
    first_days: tuple[FirstDay, ...] = ()


def details_of(issue_id: str, value: str, colour: str, reading: Reading, stamps: Stamps) -> Details:
    """The details of one stamp of an issue: its denomination and colour as the candidate names them.

    Band, watermark and country narrow the first days while one is left; raises KeyError for an
    unknown id.
    """
    issue = stamps.weighed(issue_id)
    days = _days(issue_id, value, colour, stamps)
    for narrow in (_by_band, _by_watermark, _by_country):
        days = narrow(days, reading) or days
    return Details(
        band=_only(each.band for each in days),
        gum=issue.gum,
        country=_only(name for each in days for name in each.countries or ("",)),
        set=stamps.sets.get(issue_id),
        first_days=days,
    )


def _days(issue_id: str, value: str, colour: str, stamps: Stamps) -> tuple[FirstDay, ...]:
    known = stamps.first_days.get(issue_id, ())
    if not value:
        return known
    stamp = Stamp(value, (colour,) if colour else ())
    return days_of(stamp, known) or days_of(replace(stamp, colours=()), known)


def _narrowed(days: tuple[FirstDay, ...], fits: Callable[[FirstDay], bool]) -> tuple[FirstDay, ...]:
    return tuple(each for each in days if fits(each))


def _by_band(days: tuple[FirstDay, ...], reading: Reading) -> tuple[FirstDay, ...]:
    seen = {each.value for each in reading.all("phosphor")} - {"bands"}
    if not seen:
        return days
    return _narrowed(days, lambda each: bool(seen & set(each.bands)))


def _by_watermark(days: tuple[FirstDay, ...], reading: Reading) -> tuple[FirstDay, ...]:
    seen = {name for each in reading.all("watermark") for name in each.value.split("|")}
    if not seen:
        return days
    return _narrowed(days, lambda each: each.watermark in seen)


def _by_country(days: tuple[FirstDay, ...], reading: Reading) -> tuple[FirstDay, ...]:
    seen = countries_seen(reading)
    if not seen:
        return days
    return _narrowed(days, lambda each: bool(seen & set(each.countries)))


def _only(words: Iterable[str]) -> str:
    """The one word of all, "" where there are several."""
    each = set(words)
    return each.pop() if len(each) == 1 else ""


def too_early(
    issue_id: str, value: str, colour: str, reading: Reading, stamps: Stamps
) -> Reason | None:
    """What to say when the date typed ends before the first day of this very stamp; None when it does
    not, or when the reference has no days. A day that no source was read for cautions weakly."""
    seen = _date(reading)
    if seen is None or not value:
        return None
    days = details_of(issue_id, value, colour, reading, stamps).first_days
    if not days or seen.latest >= read_date(days[0].issued).earliest:
        return None
    first = days[0]
    what = ", ".join(part for part in (f"{value} {first.colours[0]}", first.band) if part)
    text = f"used {seen.words()}, before the first day of the {what}: {read_date(first.issued).words()}"
    if first.recalled:
        text += "; no source was read for that day, so it cautions and decides nothing"
    strength: Strength = "weak" if first.recalled else "moderate"
    return Reason(first.id, text, first.source, first.confidence, "against", strength, "date")


def _date(reading: Reading) -> When | None:
    try:
        return read_date(reading.first("date")) if reading.first("date") else None
    except InputError:
        return None
