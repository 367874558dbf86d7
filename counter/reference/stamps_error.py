"""The error model: how often what is said of a stamp is wrong, and in which direction."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

from counter.reference.loader import Tables, build

Record = TypeVar("Record")


@dataclass(frozen=True, slots=True)
class Character:
    """One kind of observation: `misread` is the chance of a plain mistake (0 to 1), spread over
    `others` other values; `recheck` says how to look again."""

    kind: str
    words: str
    misread: float
    others: int
    recheck: str
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class SeenAs:
    """A confusion: the chance (0 to 1) that `truly` is seen or called `seen`. `agrees` marks a
    looser word for the same thing."""

    kind: str
    truly: str
    seen: str
    share: float
    why: str
    source: str
    agrees: bool = False


@dataclass(frozen=True, slots=True)
class IssueStanding:
    """How likely an issue of this standing is before anything is seen, relative to 1; `says` is what its
    buyer must hear of it."""

    standing: str
    weight: float
    why: str
    source: str
    says: str = ""


@dataclass(frozen=True, slots=True)
class ModelFigure:
    """A single figure of the model, with its reason."""

    id: str
    value: float
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class Hue:
    """A word that makes a colour's name, and its family."""

    word: str
    family: str


@dataclass(frozen=True, slots=True)
class Fit:
    """How well a named colour fits a listed one, by grade."""

    grade: str
    share: float
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class ColourChange:
    """The chance (0 to 1) that a colour of one family is called, or has become, another's."""

    truly: str
    seen: str
    share: float
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class Look:
    """Something that may be looked at next: `seconds` at a stall, and whether it `wets`."""

    id: str
    kind: str
    ask: str
    seconds: int
    wets: bool
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class Answers:
    """Plain words for the values of one kind."""

    kind: str
    words: dict[str, str]


@dataclass(frozen=True, slots=True)
class Explanation:
    """The trade's likely explanation of a contradiction; empty fields narrow nothing."""

    kind: str
    says: str
    seen: str = ""
    truly: str = ""
    issues: tuple[str, ...] = ()
    lookalike: str = ""
    test: str = ""


@dataclass(frozen=True, slots=True)
class CancelPeriod:
    """The years a kind of cancel belongs to (ISO days)."""

    cancel: str
    earliest: str
    latest: str
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class SetBySeries:
    """A name of a series that a commemorative set has too; with the set's year it means the set."""

    series: str
    subject: str
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class HowMany:
    """How many of an issue there were, where its years would mislead: stamps `printed` (a printing known
    to be small), or a `weight` on what its years give. `proof` is what alone proves it, in words."""

    issue: str
    why: str
    source: str
    printed: int = 0
    weight: float = 1.0
    proof: str = ""


@dataclass(frozen=True, slots=True)
class Unsaid:
    """A character that is said first where a stamp has it: `weight` is how likely such a stamp is when
    it is not spoken of. `states` are the striking states; none given: any but "none"."""

    kind: str
    weight: float
    why: str
    source: str
    states: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Tell:
    """A named tell ("ivory head", "secret dots") and the issues that have it; `kind` and `value` are the
    observation that says it."""

    kind: str
    value: str
    issues: tuple[str, ...]
    says: str
    source: str
    confidence: str


@dataclass(frozen=True)
class ErrorModel:
    """Everything that weighs one observation against one issue."""

    characters: dict[str, Character]
    seen_as: dict[tuple[str, str], dict[str, SeenAs]]
    standings: dict[str, IssueStanding]
    figures: dict[str, float]
    hues: dict[str, str]
    shade_words: frozenset[str]
    own_names: frozenset[str]
    proper_names: frozenset[str]
    fits: dict[str, float]
    colour_changes: dict[tuple[str, str], ColourChange]
    looks: tuple[Look, ...]
    answers: dict[str, dict[str, str]]
    explanations: tuple[Explanation, ...]
    cancel_periods: dict[str, CancelPeriod]
    sets_by_series: dict[str, str]
    how_many: dict[str, HowMany]
    unsaid: tuple[Unsaid, ...]
    unsaid_kinds: frozenset[str]
    tells: dict[tuple[str, str], Tell]


def read_error_model(tables: Tables) -> ErrorModel:
    """The error model from the tables of `data/stamps/`; raises DataFault."""
    seen_as: dict[tuple[str, str], dict[str, SeenAs]] = {}
    for each in _every(SeenAs, tables, "seen_as"):
        seen_as.setdefault((each.kind, each.truly), {})[each.seen] = each
    return ErrorModel(
        characters={each.kind: each for each in _every(Character, tables, "character")},
        seen_as=seen_as,
        standings={each.standing: each for each in _every(IssueStanding, tables, "standing")},
        figures={each.id: each.value for each in _every(ModelFigure, tables, "figure")},
        hues={each.word: each.family for each in _every(Hue, tables, "hue")},
        shade_words=frozenset(tables["colour_model"]["shade_words"]),
        own_names=frozenset(tables["colour_model"]["own_names"]),
        proper_names=frozenset(tables["colour_model"]["proper_names"]),
        fits={each.grade: each.share for each in _every(Fit, tables, "fit")},
        colour_changes={
            (each.truly, each.seen): each for each in _every(ColourChange, tables, "colour_change")
        },
        looks=_every(Look, tables, "look"),
        answers={each.kind: each.words for each in _every(Answers, tables, "answer")},
        explanations=_every(Explanation, tables, "explanation"),
        cancel_periods={each.cancel: each for each in _every(CancelPeriod, tables, "cancel_period")},
        sets_by_series={
            each.series: each.subject for each in _every(SetBySeries, tables, "set_by_series")
        },
        how_many={each.issue: each for each in _every(HowMany, tables, "how_many")},
        unsaid=_every(Unsaid, tables, "unsaid"),
        unsaid_kinds=frozenset(each.kind for each in _every(Unsaid, tables, "unsaid")),
        tells={(each.kind, each.value): each for each in _every(Tell, tables, "tell")},
    )


def _every(record: type[Record], tables: Tables, key: str) -> tuple[Record, ...]:
    return tuple(
        build(record, row, f"{file}.toml [[{key}]] no. {number}")
        for file, content in tables.items()
        for number, row in enumerate(content.get(key, ()), 1)
    )
