"""Records of what to ask of a cover, how fast the mails went, key days, and the trade's notes."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from counter.reference.postal_marks import Weight


@dataclass(frozen=True, slots=True)
class CheckAnswer:
    """One answer a person may give to a check, how it speaks, and how it is `said` in a line."""

    value: str
    text: str
    speaks: Literal["for", "against"]
    strength: Weight
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CoverCheck:
    """A question to a cover: what speaks for the stamp belonging, what against, how strongly.

    `label` names what is looked at, whichever way it speaks.
    `bears_on` is belonging for most; the answer to the others never counts in the finding. `effort`
    is 1 for a glance, 2 for a glass, 3 for a lamp or the reading of a letter. `answers` are what a
    person may say who has looked; none speaks more strongly than `w_for` and `w_against` allow. Where it
    `joins`, what speaks for is evidence that this stamp came through the post on this cover.
    """

    id: str
    label: str
    question: str
    bears_on: Literal["belonging", "value", "treatment"]
    effort: int
    gather: tuple[str, ...]
    speaks_for: str
    w_for: Weight
    speaks_against: str
    w_against: Weight
    basis: str
    source: str
    answers: tuple[CheckAnswer, ...] = ()
    joins: bool = False
    also_source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Transit:
    """A journey timed in its own day, or (mode "rule") the fastest that is credible."""

    id: str
    from_place: str
    to_place: str
    year: int
    mode: str
    confidence: str
    source: str
    hours: Decimal | None = None
    miles: Decimal | None = None
    mph: Decimal | None = None
    max_mph_coach: Decimal | None = None
    max_mph_rail_1840s: Decimal | None = None
    max_mph_rail_1860s: Decimal | None = None
    also_source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class KeyDate:
    """A day that decides."""

    id: str
    day: str
    what: str
    confidence: str
    source: str
    also_source: str = ""
    date_source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """Something a person who quotes should keep in mind, or how a rate is reckoned."""

    id: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """A gap that the reference knows of."""

    id: str
    text: str
