"""What is to be treated: the issues it may be, what was seen of it, and what stays unanswered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from counter.reference.treatment_questions import Choice, IssueClasses, Question
from counter.reference.treatments import Treatments


@dataclass(frozen=True, slots=True)
class Subject:
    """An item as the treatment rules need it.

    `issues` are the issue ids it may be (more than one while that is open; none when it is not
    identified), `answers` the answered questions: key -> values of the question's choices,
    `classes` those that follow from what was seen (faults, an overprint), `conditions` the
    `allowed_when` conditions that somebody has confirmed and `refuted` those known not to hold.
    """

    issues: tuple[str, ...] = ()
    denomination: str = ""
    answers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    classes: frozenset[str] = frozenset()
    conditions: frozenset[str] = frozenset()
    refuted: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Open:
    """A question nobody has answered: each choice with the classes it would add."""

    key: str
    words: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Standing:
    """The classes an item is known to belong to (class -> why), and the questions still open."""

    classes: Mapping[str, str]
    open: tuple[Open, ...]


def standing(subject: Subject, treatments: Treatments) -> Standing:
    """Work out the known classes and the open questions of a subject."""
    rows = [_rows_of(issue, subject.denomination, treatments) for issue in subject.issues]
    known: dict[str, str] = {}
    asked: list[Open] = []
    if not rows:
        known["unknown"] = "not identified"
    elif len(rows) == 1:
        _issue_known(rows[0], known)
    else:
        asked.append(_which_issue(subject, rows))
        for one in set.intersection(*({c for row in each for c in row.classes} for each in rows)):
            known[one] = "whichever issue it is"
    for question in treatments.questions.values():
        answer = subject.answers.get(question.key, ())
        choices = _choices(question, rows, subject.denomination)
        given = [choice for choice in question.choices if choice.value in answer]
        for choice in given:
            _add(known, choice.classes, f"{question.key}: {choice.words}")
        if len(choices) == 1:
            _add(known, choices[0].classes, f"{question.key}: {choices[0].words}, by its issue")
        elif not given:
            asked.append(Open(question.key, question.words, choices))
    if "used" in subject.answers.get("gum", ()):
        _add(known, _gums(rows), "gum: used, of the years of PVA gum")
    _add(known, subject.classes, "seen")
    _add(known, (one for one in treatments.classes if "yes" in subject.answers.get(one, ())), "seen")
    asked += _maybe(subject, rows, known, treatments)
    return Standing(known, tuple(asked))


def _rows_of(issue: str, denomination: str, treatments: Treatments) -> list[IssueClasses]:
    """The mapping rows of an issue; rows for other denominations than the known one are left out."""
    found = [
        row
        for row in treatments.of_issue.get(issue, ())
        if not (row.denominations and denomination and denomination not in row.denominations)
    ]
    return found or [
        IssueClasses((issue,), ("unknown",), "No class is known for this issue.", "common practice")
    ]


def _issue_known(rows: list[IssueClasses], known: dict[str, str]) -> None:
    for row in rows:
        _add(known, row.classes, row.why)


def _which_issue(subject: Subject, rows: list[list[IssueClasses]]) -> Open:
    choices = tuple(
        Choice(issue, issue, tuple(dict.fromkeys(c for row in each for c in row.classes)))
        for issue, each in zip(subject.issues, rows, strict=True)
    )
    return Open("issue", "Which issue is it?", choices)


def _choices(
    question: Question, rows: list[list[IssueClasses]], denomination: str
) -> tuple[Choice, ...]:
    """The choices that can be: those offered, and of papers only those its issues are found on."""
    offered = tuple(choice for choice in question.choices if choice.offered)
    if question.key == "gum":
        gums = _gums(rows)
        return tuple(
            Choice(c.value, c.words, (*c.classes, *gums)) if c.value == "used" else c for c in offered
        )
    if question.key != "paper" or not rows:
        return offered
    found = {paper for each in rows for paper in _papers(each, denomination)}
    return tuple(choice for choice in offered if choice.value in found)


def _papers(rows: list[IssueClasses], denomination: str) -> set[str]:
    """The papers of one issue; a known denomination's own row decides where there is one."""
    exact = [row for row in rows if denomination and row.denominations and row.papers]
    return {
        paper
        for row in exact or rows
        for paper in row.papers or (() if row.denominations else ("white",))
    }


def _gums(rows: list[list[IssueClasses]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(gum for each in rows for row in each for gum in row.gums))


def _maybe(
    subject: Subject, rows: list[list[IssueClasses]], known: dict[str, str], treatments: Treatments
) -> list[Open]:
    """A question for each class that only a look at the stamp decides."""
    classes = dict.fromkeys(one for each in rows for row in each for one in row.may_be)
    asked = []
    for one in classes:
        answer = subject.answers.get(one, ())
        if not answer and one not in known:
            about = treatments.classes[one]
            yes, no = Choice("yes", "yes", (one,)), Choice("no", "no")
            asked.append(Open(one, f"Is it {about.name.lower()}: {about.recognise}?", (no, yes)))
    return asked


def _add(known: dict[str, str], classes: Iterable[str], why: str) -> None:
    for one in classes:
        known.setdefault(one, why)
