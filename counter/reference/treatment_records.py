"""Treatments, classes and what each class tolerates: the records behind every treatment verdict."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Verdict = Literal["tolerates", "with care", "unknown", "never"]
Group = Literal["print", "paper", "gum", "mark", "attach", "condition", "status"]
Kind = Literal["dry", "water", "peroxide", "spirit", "chemical"]


@dataclass(frozen=True, slots=True)
class Dissent:
    """The other side of a disputed row: what conservation advice says against trade practice."""

    verdict: Verdict
    reason: str
    source: str


@dataclass(frozen=True, slots=True)
class Tolerance:
    """What one class tolerates of one treatment. Times in seconds.

    `allowed_when` says in words, and `conditions` by id, what must all hold before
    `allowed_verdict` replaces the row's own verdict.
    """

    verdict: Verdict
    reason_code: str
    reason: str
    source: str
    confidence: str
    also: tuple[str, ...] = ()
    only_for: str = ""
    usual_seconds: int | None = None
    most_seconds: int | None = None
    dissent: Dissent | None = None
    allowed_when: str = ""
    conditions: tuple[str, ...] = ()
    allowed_verdict: Verdict | None = None


@dataclass(frozen=True, slots=True)
class Treatment:
    """One treatment: what it is for, how it is done, its caps, and what it must never touch.

    Strengths are % w/v, times seconds, temperatures Celsius. `verdict_from` says whether the
    classes decide ("matrix") or `default_verdict` does; then `barred_classes` are never.
    """

    id: str
    name: str
    kind: Kind
    purpose: str
    verdict_from: Literal["matrix", "default_verdict"]
    default_verdict: Verdict
    at_fair: bool
    materials: tuple[str, ...]
    steps: tuple[str, ...]
    most_seconds: int
    stop: str
    watch: tuple[str, ...]
    reversible: Literal["yes", "partly", "no"]
    disclose: Literal["no", "should", "must"]
    never: tuple[str, ...]
    person_hazards: tuple[str, ...]
    source: str
    also: tuple[str, ...] = ()
    called: tuple[str, ...] = ()
    barred_classes: tuple[str, ...] = ()
    temp_c: tuple[float, ...] = ()
    rh_percent: tuple[float, ...] = ()
    strength_min_wv: float | None = None
    strength_max_wv: float | None = None
    strength_refuse_above_wv: float | None = None
    strength_note: str = ""
    first_check_s: int | None = None
    check_every_s: int | None = None
    time_note: str = ""
    most_a_day: int | None = None
    reversible_note: str = ""
    disclose_note: str = ""
    note: str = ""

    @property
    def wet(self) -> bool:
        """Whether anything liquid or damp touches the item."""
        return self.kind != "dry"


@dataclass(frozen=True, slots=True)
class ItemClass:
    """A class an item may belong to, by print, paper, gum, mark, attachment, condition, status."""

    id: str
    group: Group
    name: str
    recognise: str
    source: str
    confidence: str
    default_verdict: Verdict = "never"
    note: str = ""


@dataclass(frozen=True, slots=True)
class ReasonCode:
    """A reason's stable code and what it means."""

    code: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule that verdicts are worked out by."""

    id: str
    text: str
    source: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Limits:
    """The caps of every answer. Strengths % w/v unless the name says w/w; times in seconds."""

    default_verdict: Verdict
    verdict_order: tuple[Verdict, ...]
    peroxide_max_guided_wv: float
    peroxide_refuse_above_wv: float
    peroxide_max_seconds: int
    precursor_limit_ww: float
    eye_irritant_from_ww: float
    eye_damage_from_ww: float
    matrix_treatments: tuple[str, ...]
    ink_cells_as_dissent: tuple[str, ...]
    advice_note: str
    source: str
