"""Read the stamps from their data files, cross-checked: the way in for every record of a stamp."""

from __future__ import annotations

from pathlib import Path
from typing import TypeVar

from counter.reference.loader import DATA, DataFault, Tables, build, build_all, read_folder
from counter.reference.sources import Source, read_sources
from counter.reference.stamps import Stamps
from counter.reference.stamps_check import check, check_error_model
from counter.reference.stamps_days import FirstDay, with_days
from counter.reference.stamps_error import read_error_model
from counter.reference.stamps_ink import Ink
from counter.reference.stamps_issue import Issue
from counter.reference.stamps_kinds import OtherKind, Rule, Stationery
from counter.reference.stamps_plate import read_plates
from counter.reference.stamps_records import (
    Alphabet,
    Commemorative,
    CrossCheck,
    Denomination,
    FollowUp,
    LetteringRule,
    Lookalike,
    Separation,
    Sheet,
    Watermark,
)
from counter.reference.stamps_sets import issues_of
from counter.reference.stamps_varieties import Variety

Record = TypeVar("Record")


def read_stamps(data: Path = DATA) -> Stamps:
    """Read and check `data/stamps/`; raises DataFault naming file, record and field at fault."""
    tables = read_folder("stamps", data)
    days = _days(tables)
    sets = _everywhere(Commemorative, tables, "commemorative")
    issues = _issues(tables, days, sets)
    stamps = Stamps(
        issues={issue.id: issue for issue in issues},
        plates=read_plates(tables),
        watermark_rows=_rows(Watermark, tables, "watermark"),
        alphabets=_everywhere(Alphabet, tables, "alphabet"),
        lettering=_everywhere(LetteringRule, tables, "lettering_rule"),
        sheets=_everywhere(Sheet, tables, "sheet"),
        lookalikes=_everywhere(Lookalike, tables, "lookalike"),
        separations=_everywhere(Separation, tables, "separation"),
        denominations=_everywhere(Denomination, tables, "denomination"),
        inks=_everywhere(Ink, tables, "ink"),
        cross_checks=_everywhere(CrossCheck, tables, "cross_check"),
        commemoratives=tuple(sets.values()),
        first_days=days,
        other_kinds=_everywhere(OtherKind, tables, "other_kind"),
        stationery=_everywhere(Stationery, tables, "stationery"),
        rules=_everywhere(Rule, tables, "rule"),
        varieties=_everywhere(Variety, tables, "variety"),
        sources=_sources(tables),
        follow_up=_rows(FollowUp, tables, "follow_up"),
        errors=read_error_model(tables),
        tables=tables,
    )
    check(stamps)
    check_error_model(stamps)
    return stamps


def _days(tables: Tables) -> dict[str, tuple[FirstDay, ...]]:
    made: dict[str, list[FirstDay]] = {}
    for each in _everywhere(FirstDay, tables, "first_day").values():
        made.setdefault(each.issue, []).append(each)
    return {name: tuple(each) for name, each in made.items()}


def _issues(
    tables: Tables, days: dict[str, tuple[FirstDay, ...]], sets: dict[str, Commemorative]
) -> list[Issue]:
    """Every issue with the first days of its stamps, and every set as an issue, by date of issue."""
    known = [
        with_days(each, days.get(each.id, ())) for each in _everywhere(Issue, tables, "issue").values()
    ]
    known += list(issues_of(sets.values(), known))
    return sorted(known, key=lambda issue: issue.characters.issued.earliest)


def _everywhere(record: type[Record], tables: Tables, key: str) -> dict[str, Record]:
    """Every `[[key]]` of every file by id; an id that two files use is a fault."""
    made: dict[str, Record] = {}
    for file in tables:
        for name, one in build_all(record, tables, file, key).items():
            if name in made:
                raise DataFault(f"{file}.toml [[{key}]] {name}: another file has this id")
            made[name] = one
    return made


def _rows(record: type[Record], tables: Tables, key: str) -> tuple[Record, ...]:
    """Every `[[key]]` of every file in order, where ids may repeat or are not needed."""
    return tuple(
        build(record, row, f"{file}.toml [[{key}]] no. {number}")
        for file, content in tables.items()
        for number, row in enumerate(content.get(key, ()), 1)
    )


def _sources(tables: Tables) -> dict[str, Source]:
    rows = [row for content in tables.values() for row in content.get("source", ())]
    return read_sources({"sources": {"source": rows}})
