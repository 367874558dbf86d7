"""Invented people of the demo: nobody here exists, and neither do the towns."""

from __future__ import annotations

from random import Random

_FIRST = (
    *("Ada", "Amos", "Bertha", "Cyril", "Dora", "Edwin", "Flora", "Giles"),
    *("Hetty", "Ivor", "Jessie", "Lorna", "Mabel", "Ned", "Olive", "Percy"),
)
_LAST = (
    *("Applewhistle", "Brindlecombe", "Cobbledick", "Dapplemere", "Eaglethorn", "Fennimoor"),
    *("Gorsewick", "Hollinbeck", "Ivelcroft", "Jessamere", "Kettlebrook", "Lambsfoot"),
    *("Mossingdale", "Nettlewade", "Oakhanger", "Pipplethorpe"),
)
TOWNS = (
    "Wexholm",
    "Tarrowby",
    "Stoke Ferrand",
    "Marlinghurst",
    "Hartfold",
    "Elmsey Bridge",
    "Corvemouth",
    "Ludmere",
    "Pennerholt",
    "Ashby Corbel",
)
_STREETS = ("Mill Lane", "Chapel Row", "Tanner's Yard", "High Street", "Ropewalk", "Station Road")
_KINDS = ("private", "private", "private", "unregistered business", "margin scheme", "business")


def people(rng: Random, laptop: str, count: int, first_seen: str) -> list[dict[str, str]]:
    """So many people with addresses; a few have told no address yet."""
    rows = []
    for number in range(1, count + 1):
        row = {
            "id": f"{laptop}-N{number}",
            "name": f"{_FIRST[number % len(_FIRST)]} {rng.choice(_LAST)}",
            "kind": rng.choice(_KINDS),
            "first_seen": first_seen,
        }
        if number % 6:
            street = f"{rng.randint(1, 90)} {rng.choice(_STREETS)}"
            row["address"] = f"{street}, {rng.choice(TOWNS)}"
        rows.append(row)
    return rows
