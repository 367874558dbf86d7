"""Which rates apply to a place abroad on a day: one, or several by the way a letter went."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from counter.reference.postal import Postal
from counter.reference.postal_rates import Rate
from counter.reference.postal_terms import PostTown
from counter.values.dates import on_day, read_date

#: From this day 2½d went to all places abroad (record union-1875).
_ALL_PLACES = "1891-01-01"
#: From this day the Empire rate went to every territory (record empire-1907).
_WHOLE_EMPIRE = "1907-10-01"
_COLONIES = ("empire", "australasia")
#: Services of the forces and of ships: their records stand apart from those of the letter post.
_FORCES = ("soldier", "officer")
_PRIVATE_SHIP = "letter_by_private_ship"


@dataclass(frozen=True, slots=True)
class Ways:
    """The rate records that may apply, and what must be said with them (or why there is none)."""

    rates: tuple[Rate, ...] = ()
    note: str = ""


def ways_abroad(postal: Postal, place: PostTown, service: str, day: date, via: str = "") -> Ways:
    """The records for a service to a place on a day; `via` picks among the ways that are recorded."""
    open_then = _in_force(postal, service, day)
    own = [rate for rate in open_then if place.id in rate.places]
    if via and service == "letter":
        ships = _in_force(postal, _PRIVATE_SHIP, day)
        own += [rate for rate in ships if _goes_by(rate, via) and "ship" in via.casefold()]
    whole = [rate for rate in own if not rate.part]
    chosen = [rate for rate in whole if not via or not rate.via or _goes_by(rate, via)]
    if chosen:
        return Ways(tuple(chosen))
    general = _general(place, service, day, open_then)
    if general.rates or not own:
        return general
    return Ways((), _why_none(place, own, via))


def ways_of_forces(postal: Postal, place: PostTown | None, service: str, day: date, via: str) -> Ways:
    """The records of soldiers' and officers' letters: to the place itself, else to anywhere."""
    open_then = _in_force(postal, service, day)
    by_way = [rate for rate in open_then if (_goes_by(rate, via) if via else not rate.via)]
    own = [rate for rate in by_way or open_then if place and place.id in rate.places]
    found = own or [rate for rate in by_way if not rate.places or not place]
    return Ways(
        tuple(found), "" if found else f"no rate of a {service}'s letter is recorded for that day"
    )


def ways_by_ship(postal: Postal, place: PostTown | None, day: date, via: str) -> Ways:
    """The records of ship letters: to the place itself, else those of any ship."""
    open_then = [
        rate for rate in _in_force(postal, "ship_letter", day) if not via or _goes_by(rate, via)
    ]
    own = [rate for rate in open_then if place and place.id in rate.places]
    found = own or [rate for rate in open_then if not rate.places]
    return Ways(tuple(found), "" if found else "no ship letter rate is recorded for that day")


def _in_force(postal: Postal, service: str, day: date) -> list[Rate]:
    iso = day.isoformat()
    return [rate for rate in postal.rates_of(service, inland=False) if rate.first <= iso <= rate.last]


def _goes_by(rate: Rate, via: str) -> bool:
    said = set(via.casefold().split())
    return any(said <= set(words.split()) or set(words.split()) <= said for words in rate.via)


def _why_none(place: PostTown, own: Iterable[Rate], via: str) -> str:
    parts = [rate for rate in own if rate.part and (not via or not rate.via or _goes_by(rate, via))]
    if parts:
        known = ", ".join(f"{rate.way or rate.to}: {rate.part}" for rate in parts)
        return f"of a letter to {place.name} only a part is recorded ({known})"
    known = "; ".join(dict.fromkeys(rate.way for rate in own if rate.way))
    return f"no rate to {place.name} by way of {via} is recorded for that day; recorded are: {known}"


def _general(place: PostTown, service: str, day: date, open_then: list[Rate]) -> Ways:
    """The records of the route that a place belongs to."""
    iso = day.isoformat()
    routes, note = _routes(place, day)
    if service == "postcard":
        routes = (("empire",) if place.route in _COLONIES else ()) + (("foreign",) if routes else ())
    if place.route == "france" and iso < "1876-01-01" and service == "postcard":
        return Ways((), "France joined the postal union on 1 January 1876")
    by_route = {rate.route: rate for rate in reversed(open_then)}
    for route in (*routes, *(("abroad",) if service != "letter" else ())):
        if route in by_route:
            return Ways((by_route[route],), note)
    colonial = [rate for rate in open_then if rate.route == "colony" and place.route in _COLONIES]
    if colonial:
        return Ways(tuple(colonial))
    return Ways((), note or f"no {service} rate to {place.name} is recorded for that day")


def _routes(place: PostTown, day: date) -> tuple[tuple[str, ...], str]:
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


def _empire(place: PostTown, day: date) -> tuple[tuple[str, ...], str]:
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
