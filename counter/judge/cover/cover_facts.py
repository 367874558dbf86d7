"""What is known of a cover: read from a line or answered on a form. Empty means not known."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from typing import Literal

from counter.judge.cover.question import Service
from counter.values.dates import When
from counter.values.postage import Postage

Region = Literal["", "london", "england_wales", "scotland", "ireland", "abroad"]


@dataclass(frozen=True, slots=True)
class DatedFact:
    """A day or period and what says so; `memory` when it rests on recollection alone."""

    when: When
    source: str
    confidence: str
    memory: bool = False


@dataclass(frozen=True, slots=True)
class StampDates:
    """When a stamp could be used: the dates of one issue, and of its plate where that is known.

    `valid` is the first day it paid postage where that is later than the day of issue; `pressed`
    when the plate was put to press, `first_known` its earliest recorded use. `likely` is false for
    a stamp that is possible but hardly ever the one.
    """

    id: str
    name: str
    issued: DatedFact | None = None
    valid: DatedFact | None = None
    superseded: DatedFact | None = None
    plate: str = ""
    pressed: DatedFact | None = None
    first_known: DatedFact | None = None
    likely: bool = True


@dataclass(frozen=True, slots=True)
class CoverSeen:
    """A cover as it is seen.

    `stamps` are the issues it may bear (likeliest first); `value` the face value of one stamp and
    `count` how many; `franking` what was said of the total. `answers` are a person's answers to the
    checks by id; `arrivals` the dates of backstamps. `marks` are mark ids and words. `several` are the
    face values named where they differ: then no one stamp or franking is taken from the line.
    """

    stamps: tuple[StampDates, ...] = ()
    value: Postage | None = None
    count: int = 1
    stampless: bool = False
    when: When | None = None
    arrivals: tuple[When, ...] = ()
    backstamp: Literal["", "present", "none"] = ""
    cancel: str = ""
    cancel_type: str = ""
    cancel_colour: str = ""
    cancel_number: str = ""
    town: str = ""
    region: Region = ""
    to_town: str = ""
    to_abroad: str = ""
    tied: Literal["", "tied", "not_tied"] = ""
    ounces: Fraction | None = None
    sheets: int | None = None
    miles: Fraction | None = None
    franking: Postage | None = None
    service: Service = "letter"
    marks: tuple[str, ...] = ()
    mark_colour: str = ""
    multiple: str = "single"
    letters: tuple[str, ...] = ()
    plates: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    attachment: str = ""
    certificate: bool = False
    several: tuple[str, ...] = ()
    answers: dict[str, str] = field(default_factory=dict)

    @property
    def day(self) -> date | None:
        """The cover's day, when it is known to the day."""
        return self.when.earliest if self.when and self.when.exact else None

    @property
    def paid(self) -> Postage | None:
        """The franking as said, else the face value of the stamps named."""
        if self.franking or self.value is None or self.stampless:
            return self.franking
        return Postage(self.value.pence * self.count, self.value.unit)
