"""Records of cancels, other marks, and what happens to inks and colours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Weight = Literal["strong", "moderate", "weak", "none"]


@dataclass(frozen=True, slots=True)
class KnownUse:
    """A stretch of days in which a kind is known against the rule, and what to make of it."""

    first: str
    last: str
    strength: Weight
    text: str


@dataclass(frozen=True, slots=True)
class Cancel:
    """A kind of cancel: `family` is the word it is asked for by, `regions` where it belongs.

    `before` and `after` say how strongly a date outside `first`-`last` speaks against a cover. Where
    `first` rests on memory, only a date before `proved_before` may speak strongly. An `exceptional`
    kind is thought of only when named, or by its colour or town; `always` speaks even in its period.
    Where one number came first, `first_number` is that one and the rest began on `other_numbers_first`.
    """

    id: str
    family: str
    kind: str
    region: str
    regions: tuple[str, ...]
    first: str
    last: str
    date_kind: Literal["official", "recorded", "period"]
    before: Weight
    after: Weight
    colours: tuple[str, ...]
    inks: tuple[str, ...]
    right_on: tuple[str, ...]
    out_of_period: str
    confidence: str
    source: str
    exceptional: bool = False
    always: Weight = "none"
    shape: str = ""
    date_note: str = ""
    proved_before: str = ""
    exceptions: tuple[KnownUse, ...] = ()
    towns: tuple[str, ...] = ()
    towns_recorded: tuple[str, ...] = ()
    ink_note: str = ""
    numbers: str = ""
    first_number: str = ""
    other_numbers_first: str = ""
    also_source: str = ""
    date_source: str = ""
    last_source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """A charge, prepayment or route mark and what it cannot stand beside."""

    id: str
    meaning: str
    colours: tuple[str, ...]
    confidence: str
    source: str
    contradicts: str = ""
    also_source: str = ""


@dataclass(frozen=True, slots=True)
class InkChange:
    """How an ink or colour changes, why, and what may or may not be done about it."""

    id: str
    what: str
    confidence: str
    source: str
    cause: str = ""
    not_the_cause: str = ""
    evidence: str = ""
    look: str = ""
    consequence: str = ""
    test: str = ""
    reversible_by: str = ""
    chemistry: str = ""
    limits: str = ""
    caution: str = ""
    strength_source: str = ""
    also_source: str = ""
    note: str = ""
