"""The tolerance strip: what an issue's ink stands by itself of water, peroxide and watermark spirit."""

from __future__ import annotations

from dataclasses import dataclass, replace

from counter.judge.judgement import Reason
from counter.judge.observation import Reading
from counter.judge.treat.class_findings import Finding, findings, of_issue, strictest_first
from counter.judge.treat.observed import subject_of_reading
from counter.judge.treat.subject import Open, Subject, standing
from counter.judge.treat.verdict_order import strictest, strictness
from counter.reference.stamps import Stamps
from counter.reference.treatment_records import Treatment, Verdict
from counter.reference.treatments import Treatments

_CELLS = (
    ("water", "soak_float"),
    ("peroxide", "peroxide_brush"),
    ("watermark spirit", "watermark_petroleum_spirit"),
)


@dataclass(frozen=True, slots=True)
class StripCell:
    """One cell of the strip: a liquid, what the ink stands of it, and why.

    `unless` are short warnings of what would make it stricter ("on blued paper: never"); they are
    things not yet seen, so they are not counted in `verdict`.
    """

    name: str
    treatment: str
    verdict: Verdict
    disputed: bool
    reasons: tuple[Reason, ...]
    unless: tuple[str, ...] = ()


def tolerance_strip(
    issue_id: str, stamps: Stamps, treatments: Treatments, reading: Reading | None = None
) -> tuple[StripCell, ...]:
    """The strip for an issue, with anything a reading has seen of paper, gum, cancel, faults...

    Unlike the full verdict it counts only what is known: nothing unanswered is held against the
    stamp, because it speaks of the ink. An issue id that is not in the reference is "unknown".
    """
    subject = subject_of_reading(reading, treatments) if reading else Subject()
    subject = replace(subject, issues=(issue_id,))
    return tuple(
        _cell(name, treatments.treatments[each], subject, stamps, treatments) for name, each in _CELLS
    )


def _cell(
    name: str, treatment: Treatment, subject: Subject, stamps: Stamps, treatments: Treatments
) -> StripCell:
    stands = standing(subject, treatments)
    found = findings(stands.classes, treatment, treatments, subject)
    found += of_issue(subject.issues[0], treatment, stamps, treatments)
    verdict = strictest(each.verdict for each in found if not each.dissents)
    hard = strictest(each.verdict for each in found)
    return StripCell(
        name,
        treatment.id,
        verdict,
        hard != verdict,
        tuple(each.reason for each in strictest_first(found)),
        _unless(verdict, stands.open, treatment, treatments),
    )


def _unless(
    verdict: Verdict, still_open: tuple[Open, ...], treatment: Treatment, treatments: Treatments
) -> tuple[str, ...]:
    """Warnings for the papers and inks the issue is also found in, where they are stricter."""
    said = []
    for each in still_open:
        if each.key != "paper" and each.key not in treatments.classes:
            continue
        for choice in each.choices:
            worst = strictest(_own(findings(choice.classes, treatment, treatments)))
            if strictness(worst) > strictness(verdict):
                what = f"on {choice.words} paper" if each.key == "paper" else f"if {each.key}"
                said.append(f"{what}: {worst}")
    return tuple(said)


def _own(found: list[Finding]) -> list[Verdict]:
    return [each.verdict for each in found if not each.dissents]
