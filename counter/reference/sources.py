"""Where a fact is from: the sources that every record names."""

from __future__ import annotations

from dataclasses import dataclass

from counter.reference.loader import DataFault, Tables, build

#: Words that stand in for a source: a trade fact without one, and a fact known but not found.
UNSOURCED = frozenset({"common practice", "memory"})


@dataclass(frozen=True, slots=True)
class Source:
    """A published source: title, who published it, when, and what part of it was read."""

    id: str
    title: str
    publisher: str = ""
    author: str = ""
    year: str = ""
    address: str = ""
    read: str = ""
    note: str = ""


def read_sources(tables: Tables) -> dict[str, Source]:
    """The `[[source]]` rows of the subject's sources*.toml by id; a repeated id raises DataFault."""
    made: dict[str, Source] = {}
    for stem in (stem for stem in tables if stem.startswith("sources")):
        for row in tables[stem]["source"]:
            if row["id"] in made:
                raise DataFault(f"{stem}.toml {row['id']}: the id appears twice")
            made[row["id"]] = build(Source, row, f"{stem}.toml {row['id']}")
    return made


def check_source(name: str, sources: dict[str, Source], where: str) -> None:
    """Raise DataFault when a record names a source that is not there."""
    if name not in sources and name not in UNSOURCED:
        raise DataFault(f"{where}.source: there is no source {name!r}")
