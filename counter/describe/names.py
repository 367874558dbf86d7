"""What an issue is called in a line of stock, and the words it can also be asked for by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counter.reference.stamps import Stamps
    from counter.reference.stamps_issue import Issue


@dataclass(frozen=True, slots=True)
class IssueName:
    """An issue in few words: "2d", "blue", "white lines imperf".

    `also` are words of the reference that a line does not show but a dealer may type: separation,
    watermark, reign, year. `title` and `issued` (a date as its source gives it) serve the long form.
    """

    denomination: str = ""
    colour: str = ""
    tail: str = ""
    also: tuple[str, ...] = ()
    title: str = ""
    issued: str = ""


Names = Mapping[str, IssueName]
_UNKNOWN = IssueName()
_SHORT = (("imperforate", "imperf"), ("perforated", "perf"), ("Alphabet", "alph"))


def name_of(issue: str, names: Names) -> IssueName:
    """The name of an issue; an id that the reference does not know is shown as its own words."""
    if not issue:
        return _UNKNOWN
    return names.get(issue) or IssueName(tail=issue.replace("_", " "))


def issue_names(stamps: Stamps) -> dict[str, IssueName]:
    """The names of every issue of the reference by id, and of what passes for one by its whole name."""
    named = {issue.id: _name(issue, stamps) for issue in stamps.issues.values()}
    return named | {each.id: IssueName(tail=each.name) for each in stamps.hypotheses.values()}


def _name(issue: Issue, stamps: Stamps) -> IssueName:
    """From "1d red-brown, small crown, 16, Die I, 1854": its value, colour and what tells it apart."""
    head, *parts = issue.name.split(", ")
    values = {stamp.value for stamp in issue.characters.stamps}
    value = values.pop() if len(values) == 1 else ""
    shown = head.removeprefix(value).strip() if value else ""
    if not value:
        parts.insert(0, head)
    if "line_engraved" in issue.characters.processes:
        parts.pop()  # the year: plate and letters say more
    tail = " ".join(f"perf {part}" if part.isdecimal() and len(part) == 2 else part for part in parts)
    for long, short in _SHORT:
        tail = tail.replace(long, short)
    title = issue.name if not value else ", ".join(issue.name.split(", ")[1:])
    return IssueName(value, shown, tail, _also(issue, stamps), title, issue.date_first_issued)


def _also(issue: Issue, stamps: Stamps) -> tuple[str, ...]:
    known = issue.characters
    marks = (stamps.watermarks[each] for each in known.watermarks if each in stamps.watermarks)
    return (
        *known.separations,
        *(f"perf {gauge}" for gauge in known.gauges),
        *(mark.name for mark in marks),
        *(reign.replace("_", " ") for reign in known.reigns),
        *(f"{paper} paper" for paper in known.papers),
        known.issued.earliest[:4],
    )
