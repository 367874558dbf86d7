"""The questions still open, and what each possible answer would mean."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from counter.judge.treat.class_findings import Finding, findings, of_issue, reason_of
from counter.judge.treat.subject import Open, Subject
from counter.judge.treat.verdict_order import MILDEST, strictness
from counter.reference.stamps import Stamps
from counter.reference.treatment_records import Treatment, Verdict
from counter.reference.treatments import Treatments

#: The class of what peroxide can turn back.
SULPHIDED = "sulphided_lead_ink"


@dataclass(frozen=True, slots=True)
class OpenAsk:
    """An open question with the verdict of each choice by itself.

    `worst` is what speaks loudest if it is answered badly; `dissents` are the other sides of what
    any of its choices would bring; `brings` the classes of each choice, in their order.
    """

    key: str
    words: str
    choices: tuple[tuple[str, str, Verdict], ...]
    worst: tuple[Finding, ...] = ()
    dissents: tuple[Finding, ...] = ()
    brings: tuple[tuple[str, ...], ...] = ()


def open_choices(
    questions: Iterable[Open],
    subject: Subject,
    treatment: Treatment,
    stamps: Stamps,
    treatments: Treatments,
) -> list[OpenAsk]:
    """Each open question with what each choice would say by itself."""
    asked = []
    for each in questions:
        heard: list[tuple[str, str, Verdict]] = []
        worst: Finding | None = None
        dissents: list[Finding] = []
        for choice in each.choices:
            found = findings(choice.classes, treatment, treatments, subject)
            if each.key == "issue":
                found += of_issue(choice.value, treatment, stamps, treatments)
            dissents += [one for one in found if one.dissents]
            loudest = max((one for one in found if not one.dissents), key=_severity, default=None)
            verdict = loudest.verdict if loudest else MILDEST
            named = stamps.issues.get(choice.value) if each.key == "issue" else None
            heard.append((choice.value, named.name if named else choice.words, verdict))
            if strictness(verdict) > (_severity(worst) if worst else strictness(MILDEST)):
                worst = loudest
        unsaid = (_unsaid(worst, each.key),) if worst else ()
        other = tuple(dissents) if each.key == "issue" else ()
        brings = tuple(choice.classes for choice in each.choices)
        asked.append(OpenAsk(each.key, each.words, tuple(heard), unsaid, other, brings))
    return asked


def _severity(finding: Finding) -> int:
    return strictness(finding.verdict)


def _unsaid(finding: Finding, key: str) -> Finding:
    """The finding as one that rests on a question nobody has answered."""
    return replace(finding, reason=replace(finding.reason, rests_on=f"not answered: {key}"))


def open_conditions(found: Iterable[Finding], treatments: Treatments) -> list[OpenAsk]:
    """What must be confirmed before a row gives way: asked, never assumed."""
    asked: dict[str, OpenAsk] = {}
    for each in found:
        for name in each.conditions:
            choices = (("yes", "yes", each.allowed or each.verdict), ("no", "no", each.verdict))
            asked[name] = OpenAsk(name, treatments.conditions[name].words, choices)
    return list(asked.values())


def nothing_to_cure(treatments: Treatments) -> Finding:
    """Peroxide on a stamp that is not darkened: it can only do harm."""
    about = treatments.reasons["NOT_SULPHIDE"]
    return Finding("never", reason_of("never", about.code, about.text, about.source, "high", SULPHIDED))


def open_darkening(treatments: Treatments) -> OpenAsk:
    """Whether there is anything for peroxide to turn back."""
    choices: tuple[tuple[str, str, Verdict], ...] = (
        ("yes", "yes: a red, orange, blue or cancel gone brown or black", "tolerates"),
        ("no", "no, or not sure", "never"),
    )
    worst = (_unsaid(nothing_to_cure(treatments), SULPHIDED),)
    return OpenAsk(SULPHIDED, "Is it darkened by sulphide?", choices, worst)


def open_strength() -> OpenAsk:
    """The question of a peroxide whose strength was not said."""
    choices: tuple[tuple[str, str, Verdict], ...] = (
        ("3 % w/v", "3 % w/v (10 volume), fresh", "tolerates"),
        ("old bottle", "stronger, or not known", "never"),
    )
    return OpenAsk("strength", "How strong is the peroxide?", choices)
