"""Which overseas rates apply to a place on a day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from counter.reference.postal import Postal
from counter.reference.postal_rates import Rate
from counter.reference.postal_terms import Place
from counter.values.dates import on_day, read_date

#: From this day 2½d went to all places abroad (record union-1875).
_ALL_PLACES = "1891-01-01"
#: From this day the Empire rate went to every territory (record empire-1907).
_WHOLE_EMPIRE = "1907-10-01"


@dataclass(frozen=True, slots=True)
class Route:
    """The rate record for a place, what must be said with it, or (no rate) why there is none."""

    rate: Rate | None
    note: str = ""


def find_route(postal: Postal, place: Place, service: str, day: date) -> Route:
    """The record for a letter or postcard to a place on a day."""
    iso = day.isoformat()
    routes, note = _routes(place, day)
    if service == "postcard":
        routes = ("foreign",) if routes else ()
    if place.route == "france" and iso < "1876-01-01" and service == "postcard":
        return Route(None, "France joined the postal union on 1 January 1876")
    for rate in postal.rates.values():
        fits = rate.route in routes and rate.service == service
        if fits and rate.first <= iso <= rate.last:
            return Route(rate, note)
    return Route(None, note or f"no {service} rate to {place.name} is recorded for that day")


def _routes(place: Place, day: date) -> tuple[tuple[str, ...], str]:
    """The names of routes that may serve a place on a day, and what is uncertain about them."""
    iso = day.isoformat()
    if place.route == "usa":
        return ("usa",), ""
    if place.route == "france":
        return ("france", "foreign"), ""
    if place.route == "union":
        return ("union", "foreign"), ""
    if place.route == "world":
        if iso < _ALL_PLACES:
            return (), f"when {place.name} joined the postal union is not in the reference"
        return ("union", "foreign"), ""
    if iso < "1898-12-25":
        if iso >= _ALL_PLACES:
            return ("union",), ""
        return (("empire",) if place.route == "australasia" else ()), ""
    return _empire(place, day)


def _empire(place: Place, day: date) -> tuple[tuple[str, ...], str]:
    if day.isoformat() >= _WHOLE_EMPIRE:
        return ("empire",), ""
    if not place.penny_from:
        return ("empire",), f"this holds if {place.name} was in the Imperial Penny Post by then"
    joined = read_date(place.penny_from)
    order = on_day(day).compared(joined)
    if order == "may overlap" and not joined.exact:
        return (
            (),
            f"{place.name} joined the Imperial Penny Post in {joined.words()}, the day is not known",
        )
    said = f"{place.name} joined the Imperial Penny Post on {joined.words()} ({place.penny_source})"
    return (("union",) if order == "before" else ("empire",)), said
