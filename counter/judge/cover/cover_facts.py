"""What is known of a cover: read from a line or answered on a form. Empty means not known."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from typing import Literal

from counter.judge.cover.dated_facts import DatedFact
from counter.judge.cover.plate_record import PlateDay
from counter.judge.cover.question import Service
from counter.reference.stamps_issue import Standing
from counter.values.dates import When
from counter.values.postage import Postage

Region = Literal["", "london", "england_wales", "scotland", "ireland", "abroad"]


@dataclass(frozen=True, slots=True)
class StampDates:
    """When a stamp could be used: the dates of one issue, and of its plate where that is known.

    `issued` is the first day of its value; `valid` the first day it paid postage where that is later.
    `plate_days` are what is known of the plate's beginning, the hardest first; `plate_fault` says that
    the number was never used. `likely` is false for a stamp that is possible but hardly ever the one.
    """

    id: str
    name: str
    issued: DatedFact | None = None
    valid: DatedFact | None = None
    superseded: DatedFact | None = None
    plate: str = ""
    plate_days: tuple[PlateDay, ...] = ()
    plate_fault: str = ""
    standing: Standing = "issued"
    likely: bool = True

    @property
    def ordinary(self) -> bool:
        """Whether it is a stamp that anybody could buy and use: only these explain a date."""
        return self.standing in ("issued", "scarce")


@dataclass(frozen=True, slots=True)
class Franked:
    """Another stamp of the franking beside the first: the issues it may be, its face, how many."""

    stamps: tuple[StampDates, ...] = ()
    value: Postage | None = None
    count: int = 1

    @property
    def paid(self) -> Postage | None:
        """What it pays together."""
        return Postage(self.value.pence * self.count, self.value.unit) if self.value else None


@dataclass(frozen=True, slots=True)
class CancelMark:
    """A cancel as it is seen: its family, the closer type, its ink, its number."""

    family: str
    type: str = ""
    colour: str = ""
    number: str = ""


@dataclass(frozen=True, slots=True)
class CoverSeen:
    """A cover as it is seen.

    `stamps` are the issues it may bear (likeliest first); `value` the face value of one stamp and
    `count` how many; `franking` what was said of the total. `answers` are a person's answers to the
    checks by id; `arrivals` the dates of backstamps. `marks` are mark ids and words. `beside` are the
    other stamps of the franking, `more_cancels` the other cancels. `charge` is what was to be collected,
    `due` the postage due labels that show it. `second` is the date of a re-used letter's other journey,
    `written` that of the letter inside, `via` the way it went abroad, in the words that rates are told by.
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
    via: str = ""
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
    beside: tuple[Franked, ...] = ()
    more_cancels: tuple[CancelMark, ...] = ()
    charge: Postage | None = None
    due: Franked | None = None
    second: When | None = None
    written: When | None = None
    answers: dict[str, str] = field(default_factory=dict)

    @property
    def day(self) -> date | None:
        """The cover's day, when it is known to the day."""
        return self.when.earliest if self.when and self.when.exact else None

    @property
    def groups(self) -> tuple[tuple[StampDates, ...], ...]:
        """The issues that each stamp of the franking may be, stamp by stamp."""
        due = (self.due,) if self.due else ()
        every = (self.stamps, *(each.stamps for each in (*self.beside, *due)))
        return tuple(group for group in every if group)

    @property
    def paid(self) -> Postage | None:
        """The franking as said, else the face values of all the stamps named; None when one is not
        known, or they are not in one money."""
        if self.franking or self.stampless or self.value is None:
            return self.franking
        parts = [Franked((), self.value, self.count).paid, *(each.paid for each in self.beside)]
        known = [part for part in parts if part]
        if len(known) < len(parts) or len({part.unit for part in known}) > 1:
            return None
        return Postage(sum((part.pence for part in known), Fraction(0)), known[0].unit)

    @property
    def asked_for(self) -> Postage | None:
        """What was collected: the charge noted, else what the labels show."""
        return self.charge or (self.due.paid if self.due else None)
