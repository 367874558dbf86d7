"""The stamps: every issue, plate, watermark, lookalike, ink and rule, read and cross-checked."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar

from counter.reference.loader import Tables
from counter.reference.sources import Source
from counter.reference.stamps_days import FirstDay
from counter.reference.stamps_error import ErrorModel
from counter.reference.stamps_hypothesis import read_hypotheses
from counter.reference.stamps_ink import Ink
from counter.reference.stamps_issue import Issue
from counter.reference.stamps_kinds import OtherKind, Rule, Stationery
from counter.reference.stamps_plate import Plate, expand
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
from counter.reference.stamps_varieties import Variety

Record = TypeVar("Record")


@dataclass(frozen=True, eq=False)
class Stamps:
    """Everything known of the stamps. Dictionaries go by id; `issues` run by date of issue.

    `watermark_rows` keeps every description (two ids are described twice), `watermarks` the first
    by id. `errors` weighs what is seen. `plate_numbers` and `unused_plates` give the numbers of an
    issue, ranges written out. A commemorative set is an issue too, by the same id in `sets`;
    `first_days` go by issue. `hypotheses` are reprints and forgeries that are weighed as issues are,
    by lookalike id; `weighed` finds either.
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
    first_days: dict[str, tuple[FirstDay, ...]]
    other_kinds: dict[str, OtherKind]
    stationery: dict[str, Stationery]
    rules: dict[str, Rule]
    varieties: dict[str, Variety]
    sources: dict[str, Source]
    follow_up: tuple[FollowUp, ...]
    errors: ErrorModel
    tables: Tables = field(repr=False)
    watermarks: dict[str, Watermark] = field(init=False, repr=False)
    sets: dict[str, Commemorative] = field(init=False, repr=False)
    plate_numbers: dict[str, frozenset[str]] = field(init=False, repr=False)
    unused_plates: dict[str, frozenset[str]] = field(init=False, repr=False)
    hypotheses: dict[str, Issue] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        first = {mark.id: mark for mark in reversed(self.watermark_rows)}
        hypotheses = read_hypotheses(self.tables, self.issues, self.lookalikes)
        object.__setattr__(self, "hypotheses", hypotheses)
        issues = (*self.issues.values(), *hypotheses.values())
        used = {each.id: frozenset(expand(each.characters.plates)) for each in issues}
        unused = {each.id: frozenset(expand(each.characters.plates_unused)) for each in issues}
        sets = {each.id: each for each in self.commemoratives}
        for name, made in (
            ("watermarks", first),
            ("sets", sets),
            ("plate_numbers", used),
            ("unused_plates", unused),
        ):
            object.__setattr__(self, name, made)

    def weighed(self, name: str) -> Issue:
        """The issue, or what passes for one, of an id; raises KeyError for neither."""
        return self.hypotheses[name] if name in self.hypotheses else self.issues[name]

    def commemoratives_of(
        self, *, year: int | None = None, subject: str = "", value: str = ""
    ) -> tuple[Commemorative, ...]:
        """Sets of a year, with a value, whose subject holds every word given (case ignored)."""
        return tuple(
            each
            for each in self.commemoratives
            if (year is None or each.year == year)
            and (not value or value in each.denominations)
            and each.speaks_of(subject)
        )

    def varieties_of(self, issue: str, plate: str = "", letters: str = "") -> tuple[Variety, ...]:
        """The varieties found on an issue; a plate or letters narrow those that have them."""
        return tuple(
            each
            for each in self.varieties.values()
            if issue in each.issues
            and (not plate or not each.plate or plate == each.plate)
            and (not letters or not each.letters or letters in each.letters)
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
