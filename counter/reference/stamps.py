"""The stamps: every issue, plate, watermark, lookalike, ink and rule, read and cross-checked."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from counter.reference.loader import DATA, DataFault, Tables, build, build_all, read_folder
from counter.reference.sources import Source, read_sources
from counter.reference.stamps_error import ErrorModel, read_error_model
from counter.reference.stamps_ink import Ink
from counter.reference.stamps_issue import Issue
from counter.reference.stamps_marks import (
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
from counter.reference.stamps_plate import Plate, expand, read_plates

Record = TypeVar("Record")


@dataclass(frozen=True, eq=False)
class Stamps:
    """Everything known of the stamps. Dictionaries go by id; `issues` run by date of issue.

    `watermark_rows` keeps every description (two ids are described twice), `watermarks` the first
    by id. `errors` weighs what is seen. `plate_numbers` and `unused_plates` give the numbers of an
    issue, ranges written out.
    """

    issues: dict[str, Issue]
    plates: tuple[Plate, ...]
    watermark_rows: tuple[Watermark, ...]
    alphabets: dict[str, Alphabet]
    lettering: dict[str, LetteringRule]
    sheets: dict[str, Sheet]
    lookalikes: dict[str, Lookalike]
    separations: dict[str, Separation]
    denominations: dict[str, Denomination]
    inks: dict[str, Ink]
    cross_checks: dict[str, CrossCheck]
    commemoratives: tuple[Commemorative, ...]
    sources: dict[str, Source]
    follow_up: tuple[FollowUp, ...]
    errors: ErrorModel
    tables: Tables = field(repr=False)
    watermarks: dict[str, Watermark] = field(init=False, repr=False)
    plate_numbers: dict[str, frozenset[str]] = field(init=False, repr=False)
    unused_plates: dict[str, frozenset[str]] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        first = {mark.id: mark for mark in reversed(self.watermark_rows)}
        issues = self.issues.values()
        used = {each.id: frozenset(expand(each.characters.plates)) for each in issues}
        unused = {each.id: frozenset(expand(each.characters.plates_unused)) for each in issues}
        for name, made in (("watermarks", first), ("plate_numbers", used), ("unused_plates", unused)):
            object.__setattr__(self, name, made)

    def commemoratives_of(
        self, *, year: int | None = None, subject: str = "", value: str = ""
    ) -> tuple[Commemorative, ...]:
        """Sets of a year, with a value, whose subject holds every word given (case ignored)."""
        words = subject.casefold().split()
        return tuple(
            each
            for each in self.commemoratives
            if (year is None or each.year == year)
            and (not value or value in each.values)
            and all(word in each.subject.casefold() for word in words)
        )

    def plates_of(self, issue: str, number: str) -> tuple[Plate, ...]:
        """Plate records that may speak of a number of an issue: same denomination, same number."""
        value = self.issues[issue].characters.stamps[0].value
        known = number in self.plate_numbers[issue] or number in self.unused_plates[issue]
        return tuple(
            plate
            for plate in self.plates
            if known and plate.denomination == value and number in expand((plate.plate,))
        )


def read_stamps(data: Path = DATA) -> Stamps:
    """Read and check `data/stamps/`; raises DataFault naming file, record and field at fault."""
    from counter.reference.stamps_check import check
    from counter.reference.stamps_error import check_error_model

    tables = read_folder("stamps", data)
    issues = _everywhere(Issue, tables, "issue")
    order = sorted(issues.values(), key=lambda issue: issue.characters.issued.earliest)
    stamps = Stamps(
        issues={issue.id: issue for issue in order},
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
        commemoratives=_rows(Commemorative, tables, "commemorative"),
        sources=_sources(tables),
        follow_up=_rows(FollowUp, tables, "follow_up"),
        errors=read_error_model(tables),
        tables=tables,
    )
    check(stamps)
    check_error_model(stamps)
    return stamps


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
