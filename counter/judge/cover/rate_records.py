"""Which rate records hold for an item on a day: one, several by the way it went, or why none."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from counter.judge.cover.overseas import Ways, ways_abroad, ways_by_ship, ways_of_forces
from counter.judge.cover.question import TWO_TIER_DAY, RateQuestion
from counter.reference.postal import Postal
from counter.reference.postal_rates import Rate
from counter.values.dates import read_date

_UNIFORM_DAY = date(1839, 12, 5)  # from this day weight replaces miles and sheets
_PENNY_DAY = date(1840, 1, 10)
_HOME = frozenset({"inland", "home", "england", "scotland", "wales", "great britain"})
_FREE_STATE = date(1922, 12, 6)
_FORCES = ("soldier", "officer")
#: Services that pay as a letter and add a fee.
AS_LETTER = ("letter", "registered", "express", "recorded")
_NAMES = {
    "printed": "printed_papers",
    "first": "letter_first",
    "second": "letter_second",
    "local": "local_penny_post",
    "twopenny": "twopenny_post",
    "twopenny-country": "twopenny_post_country",
}


def records_for(postal: Postal, asked: RateQuestion, day: date) -> Ways:
    """The records that hold, and what must be said with them (or why there are none)."""
    if asked.service in _FORCES:
        return ways_of_forces(postal, postal.place(asked.to), asked.service, day, asked.via)
    if asked.service == "ship":
        return ways_by_ship(postal, postal.place(asked.to), day, asked.via)
    if asked.to and not _at_home(asked.to.strip().casefold(), day):
        return _abroad(postal, asked, day)
    service, said = inland_service(asked, day)
    iso = day.isoformat()
    for rate in postal.rates_of(service, inland=True):
        if rate.first <= iso <= rate.last:
            return Ways((rate,), said)
    return Ways((), _outside(postal, service, day))


def record_for(postal: Postal, asked: RateQuestion, day: date) -> tuple[Rate | None, str]:
    """The one record that applies (or None), and what must be said with it (or why there is none)."""
    found = records_for(postal, asked, day)
    if len(found.rates) > 1:
        return None, "it depends on the way the letter went"
    return (found.rates[0] if found.rates else None), found.note


def _at_home(to: str, day: date) -> bool:
    """Whether a country is inland: Ireland was to the day of the Irish Free State (common practice)."""
    return to in _HOME or (to == "ireland" and day < _FREE_STATE)


def inland_service(asked: RateQuestion, day: date) -> tuple[str, str]:
    """The reference's name of the service on that day, and what to say of the choice."""
    service = "letter" if asked.service in AS_LETTER else asked.service
    if day >= TWO_TIER_DAY and service in ("letter", "first", "second", "postcard", "printed"):
        return _two_tier(service, asked.unpaid)
    if service == "letter" and day < _UNIFORM_DAY:
        return "general_post_single_sheet", ""
    if service == "letter" and day < _PENNY_DAY and asked.miles is not None and asked.miles <= 8:
        return "letter_upto_8_miles", ""
    return _NAMES.get(service, service), ""


def _two_tier(service: str, unpaid: bool) -> tuple[str, str]:
    if unpaid:
        return "letter_second", "unstamped mail was treated as second class"
    if service in ("postcard", "printed"):
        return "letter_first", "cards and printed papers had no rate of their own, so by first class"
    return ("letter_second" if service == "second" else "letter_first"), ""


def _abroad(postal: Postal, asked: RateQuestion, day: date) -> Ways:
    place = postal.place(asked.to)
    if place is None:
        return Ways((), f"{asked.to} is not a place the reference knows; leave it out for inland mail")
    if place.region != "abroad":
        return records_for(postal, replace(asked, to=""), day)
    service = "letter" if asked.service in AS_LETTER else _NAMES.get(asked.service, asked.service)
    return ways_abroad(postal, place, service, day, asked.via)


def _outside(postal: Postal, service: str, day: date) -> str:
    known = postal.rates_of(service, inland=True)
    if not known:
        return "the reference has no such service"
    first, last = min(rate.first for rate in known), max(rate.last for rate in known)
    name = service.replace("_", " ")
    if first <= day.isoformat() <= last:
        return f"no {name} rate is recorded for that day"
    begins, ends = read_date(first).words(), read_date(last).words()
    return f"the reference has {name} rates from {begins} to {ends} only"
