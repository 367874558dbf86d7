"""What is no issued stamp and passes for one, as something to be weighed beside the issues."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from counter.reference.loader import DataFault, Tables, build
from counter.reference.stamps_issue import Characters, Issue, Stamp

if TYPE_CHECKING:
    from counter.reference.stamps_records import Lookalike


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """A reprint or forgery weighed in its own right: the lookalike it is (which gives source and tests),
    the issue it passes for, and the characters in which it differs from that issue."""

    lookalike: str
    issue: str
    name: str
    colours: tuple[str, ...] = ()
    characters: dict[str, Any] = field(default_factory=dict)


def read_hypotheses(
    tables: Tables, issues: dict[str, Issue], lookalikes: dict[str, Lookalike]
) -> dict[str, Issue]:
    """Every `[[hypothesis]]` as an issue of standing "imitation", by its lookalike's id."""
    made: dict[str, Issue] = {}
    for file, content in tables.items():
        for number, row in enumerate(content.get("hypothesis", ()), 1):
            where = f"{file}.toml [[hypothesis]] no. {number}"
            one = build(Hypothesis, row, where)
            if one.issue not in issues or one.lookalike not in lookalikes:
                raise DataFault(f"{where}: no issue {one.issue!r} or lookalike {one.lookalike!r}")
            made[one.lookalike] = _as_issue(one, issues[one.issue], lookalikes[one.lookalike], where)
    return made


def _as_issue(one: Hypothesis, issue: Issue, lookalike: Lookalike, where: str) -> Issue:
    changed: dict[str, Any] = {
        key: tuple(each) if isinstance(each, list) else each for key, each in one.characters.items()
    }
    unknown = sorted(set(changed) - set(Characters.__dataclass_fields__))
    if unknown:
        raise DataFault(f"{where}.characters: an issue has no {', '.join(unknown)}")
    stamps = issue.characters.stamps
    if one.colours:
        stamps = tuple(Stamp(each.value, one.colours) for each in stamps[:1])
    characters = replace(issue.characters, stamps=stamps, standing="imitation", **changed)
    return replace(
        issue,
        id=lookalike.id,
        name=one.name,
        characters=characters,
        source=lookalike.source,
        confidence=lookalike.confidence,
        date_first_issued=lookalike.date or "not issued",
        date_superseded="",
        notes=lookalike.note,
        confused_with=(),
        fields_from_memory=(),
    )
