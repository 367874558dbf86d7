"""A treatment as planned, and the shape of the answer to it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counter.judge.judgement import Reason
from counter.judge.treat.hazards import Hazards
from counter.reference.treatment_records import Verdict
from counter.values.item import TreatmentDone
from counter.values.strength import StrengthReading

Where = Literal["home", "stall"]

#: Stands under every answer on a treatment.
DEFERENCE = (
    "Information, not advice: the label, the safety data sheet, local rules and a paper "
    "conservator come first."
)


@dataclass(frozen=True, slots=True)
class Plan:
    """What is meant to be done: how strong (every reading of the label, strongest first), how long.

    `readings` None means the strength was not said; an empty tuple that it is not known (an old
    bottle). `seconds` None means the usual time. `product` is the name on the bottle, where it was
    said. `earlier` are treatments the item has had.
    """

    treatment: str
    readings: tuple[StrengthReading, ...] | None = None
    seconds: int | None = None
    product: str = ""
    where: Where = "home"
    earlier: tuple[TreatmentDone, ...] = ()


@dataclass(frozen=True, slots=True)
class Ask:
    """A question whose answer would change the verdict; `choices` are (value, words, verdict if so)."""

    key: str
    words: str
    choices: tuple[tuple[str, str, Verdict], ...]


@dataclass(frozen=True, slots=True)
class IfIssue:
    """What an issue that the item may be would bring: its classes, and the verdict if it is the one."""

    issue: str
    name: str
    classes: tuple[str, ...]
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class TreatmentVerdict:
    """The answer. `verdict` counts every blank as its worst, `could_be` as its best.

    `disputed` says that trade practice and conservation advice differ and that it still matters;
    both sides are among `reasons`. `classes` are those the item is known to belong to; while its issue
    is not settled `if_issue` lists what each would bring, and the strictest counts. `seconds` are
    the usual and the longest time, None where no time is set.
    """

    treatment: str
    name: str
    verdict: Verdict
    could_be: Verdict
    disputed: bool
    classes: tuple[str, ...]
    reasons: tuple[Reason, ...]
    asks: tuple[Ask, ...]
    hazards: Hazards
    cautions: tuple[str, ...]
    seconds: tuple[int | None, int | None]
    at_fair: bool
    if_issue: tuple[IfIssue, ...] = ()
