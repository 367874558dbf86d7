"""The tolerance strip: what a line's stamp bears of water, peroxide, spirit, light and steam.

Its word on a liquid is the full verdict's own, so the strip is never milder than the treatment list.
Where something unsaid could still forbid it, the cell says what to ask and gives no permission.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from counter.judge.judgement import Reason
from counter.judge.treat.class_findings import findings, of_issue, reason_of
from counter.judge.treat.plan import Plan, TreatmentVerdict
from counter.judge.treat.subject import Standing, Subject, standing
from counter.judge.treat.verdict import may_i_treat
from counter.judge.treat.verdict_order import of_ink, strictest, strictness
from counter.reference.stamps import Stamps
from counter.reference.treatment_records import Treatment, Verdict
from counter.reference.treatments import Treatments
from counter.values.item import TreatmentDone

_LIQUIDS = (
    ("float", "soak_float"),
    ("soak", "soak_immersion"),
    ("peroxide", "peroxide_brush"),
    ("watermark spirit", "watermark_petroleum_spirit"),
)
_EXPOSURES = ("light", "steam")


@dataclass(frozen=True, slots=True)
class StripCell:
    """One cell of the strip.

    `verdict` is what may be done now, with everything unsaid counted as the worst; `could_be` what it
    may become when the questions `asks` (their keys) are answered well; `ink` what the ink alone
    stands. `unless` are short warnings of what the issue is also found with ("on blued paper: never").
    `treatment` is "" for light and steam, which are no treatments: there the three verdicts agree.
    """

    name: str
    treatment: str
    verdict: Verdict
    could_be: Verdict
    ink: Verdict
    disputed: bool
    reasons: tuple[Reason, ...]
    asks: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()


def tolerance_strip(
    subject: Subject,
    chosen: str,
    stamps: Stamps,
    treatments: Treatments,
    *,
    today: date,
    earlier: Sequence[TreatmentDone] = (),
) -> tuple[StripCell, ...]:
    """The strip for a subject as the treatment list judges it, with the `chosen` issue among its issues.

    An issue id that is not in the reference is unknown, and unknown means don't.
    """
    if chosen not in subject.issues:
        subject = replace(subject, issues=(*subject.issues, chosen))
    stands = standing(subject, treatments)
    liquids = tuple(
        _liquid(
            name,
            may_i_treat(
                subject, Plan(each, earlier=tuple(earlier)), stamps, treatments,
                today=today, stands=stands,
            ),
            chosen, stands, stamps, treatments,
        )
        for name, each in _LIQUIDS
    )  # fmt: skip
    return (*liquids, *_exposures(chosen, stamps))


def _liquid(
    name: str,
    found: TreatmentVerdict,
    chosen: str,
    stands: Standing,
    stamps: Stamps,
    treatments: Treatments,
) -> StripCell:
    treatment = treatments.treatments[found.treatment]
    by_ink = [each for each in of_issue(chosen, treatment, stamps, treatments) if not each.dissents]
    return StripCell(
        name,
        treatment.id,
        found.verdict,
        found.could_be,
        strictest(each.verdict for each in by_ink),
        found.disputed,
        found.reasons,
        tuple(ask.key for ask in found.asks),
        _unless(found.could_be, stands, treatment, treatments),
    )


def _exposures(chosen: str, stamps: Stamps) -> tuple[StripCell, ...]:
    """Light and steam, where the ink table knows the issue's ink."""
    ink = stamps.inks.get(stamps.issues[chosen].ink) if chosen in stamps.issues else None
    if ink is None:
        return ()
    cells = []
    for name in _EXPOSURES:
        told = getattr(ink, name)
        word = of_ink(told.verdict)
        text = f"Ink, {ink.name}: {told.effect}"
        reason = reason_of(word, f"ink_{name}", text, told.source, told.certainty, chosen)
        cells.append(StripCell(name, "", word, word, word, False, (reason,)))
    return tuple(cells)


def _unless(
    could_be: Verdict, stands: Standing, treatment: Treatment, treatments: Treatments
) -> tuple[str, ...]:
    """Warnings for the papers and inks the issue is also found in, where they are stricter."""
    said = []
    for each in stands.open:
        if each.key != "paper" and each.key not in treatments.classes:
            continue
        for choice in each.choices:
            heard = findings(choice.classes, treatment, treatments)
            worst = strictest(one.verdict for one in heard if not one.dissents)
            if strictness(worst) > strictness(could_be):
                what = f"on {choice.words} paper" if each.key == "paper" else f"if {each.key}"
                said.append(f"{what}: {worst}")
    return tuple(said)
