"""The country of a regional stamp that a line speaks of."""

from __future__ import annotations

from counter.judge.observation import Observation, Reading

#: A place of which regional stamps tell is its country when nothing on the line was posted there.
_POSTED = frozenset({"cancel", "attachment", "tied", "to_town", "backstamp", "mark", "stampless"})
_PLACES = {"Guernsey": "guernsey", "Jersey": "jersey", "Isle of Man": "isle_of_man"}


def country_of(seen: Observation, reading: Reading) -> str:
    """The country that an observation names, "" for none: the name of an island is one where nothing
    on the line was posted there."""
    if seen.kind == "country":
        return seen.value
    if seen.kind != "town" or any(each.kind in _POSTED for each in reading.observations):
        return ""
    return _PLACES.get(seen.value, "")


def countries_seen(reading: Reading) -> frozenset[str]:
    """Every country the line asserts."""
    said = (*reading.all("country"), *reading.all("town"))
    return frozenset(country for each in said if (country := country_of(each, reading)))
