"""What must be asked before a wet answer, and which classes each answer and issue stands for."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    """An answer to a question: as stored, in words, and the classes it puts the item in.

    A choice that is not `offered` is only understood when it was seen or noted.
    """

    value: str
    words: str
    classes: tuple[str, ...] = ()
    offered: bool = True


@dataclass(frozen=True, slots=True)
class Question:
    """A question of the decision rules. A blank answer counts as the worst of its choices."""

    key: str
    words: str
    choices: tuple[Choice, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Condition:
    """Something that must be so before an `allowed_when` row gives way; asked, never assumed."""

    id: str
    words: str


@dataclass(frozen=True, slots=True)
class FaultClass:
    """Fault and condition words and the classes they put an item in (none: harmless to treatment)."""

    words: tuple[str, ...]
    classes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class IssueDissent:
    """What the notes on an issue's ink say against a treatment that its class allows."""

    treatments: tuple[str, ...]
    verdict: str
    reason: str
    source: str


@dataclass(frozen=True, slots=True)
class IssueClasses:
    """The classes that an issue (or some of its denominations) belongs to, with the reason.

    `papers` are the papers it may be on (values of the paper question; none given is white, or for
    a row of some denominations nothing new); `may_be` are classes that only a look at the stamp
    decides; `gums` are classes of a used stamp's gum.
    """

    issues: tuple[str, ...]
    classes: tuple[str, ...]
    why: str
    source: str
    papers: tuple[str, ...] = ()
    may_be: tuple[str, ...] = ()
    gums: tuple[str, ...] = ()
    denominations: tuple[str, ...] = ()
    dissent: IssueDissent | None = None


@dataclass(frozen=True, slots=True)
class Fluid:
    """A liquid by the names on bottles: what it is, and the treatment it serves or why it is barred."""

    id: str
    name: str
    names: tuple[str, ...]
    treatment: str
    barred: bool
    hazards: tuple[str, ...]
    text: str
    source: str
    cas: tuple[str, ...] = ()
