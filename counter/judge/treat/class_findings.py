"""The rows that speak on a treatment of some classes, and the stricter word of the issue's own ink."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from counter.judge.judgement import Reason, Speaks, Strength
from counter.judge.treat.subject import Subject
from counter.judge.treat.verdict_order import of_ink, strictness
from counter.reference.stamps import Stamps
from counter.reference.treatment_records import Tolerance, Treatment, Verdict
from counter.reference.treatments import Treatments

#: The column of the ink table that speaks on each treatment: whatever wets the print is "water".
_INK_COLUMN = {
    "soak_float": "water",
    "soak_immersion": "water",
    "damp_blotter_lift": "water",
    "hinge_moist": "water",
    "sweat_box": "water",
    "peroxide_rinse": "water",
    "peroxide_brush": "peroxide",
    "peroxide_immersion": "peroxide",
    "watermark_petroleum_spirit": "benzine",
}
#: Contacts with water shorter than the soak that the ink table's one cell speaks of.
_BRIEF = frozenset({"soak_float", "damp_blotter_lift", "hinge_moist", "sweat_box", "peroxide_rinse"})
_SPEAKS: dict[Verdict, tuple[Speaks, Strength]] = {
    "tolerates": ("for", "strong"),
    "with care": ("for", "weak"),
    "unknown": ("against", "moderate"),
    "never": ("against", "strong"),
}


@dataclass(frozen=True, slots=True)
class Finding:
    """One voice on the treatment: a verdict with its reason.

    `dissents` marks the other side of a disputed row: it decides only where the stricter must.
    `conditions` are those of an `allowed_when` row that nobody has confirmed yet; once they are,
    the row says `allowed`. A row whose condition is known not to hold has none: it cannot give way.
    """

    verdict: Verdict
    reason: Reason
    dissents: bool = False
    usual_seconds: int | None = None
    most_seconds: int | None = None
    conditions: tuple[str, ...] = ()
    allowed: Verdict | None = None


def reason_of(verdict: Verdict, code: str, text: str, source: str, confidence: str, on: str) -> Reason:
    """A reason that speaks as its verdict does."""
    speaks, strength = _SPEAKS[verdict]
    return Reason(code, text, source, confidence, speaks, strength, on)


def findings(
    classes: Iterable[str],
    treatment: Treatment,
    treatments: Treatments,
    subject: Subject | None = None,
) -> list[Finding]:
    """What every class says of a treatment to a subject, the dissents with them."""
    subject = subject or Subject()
    found: list[Finding] = []
    for one in classes:
        if treatment.verdict_from == "matrix":
            found += _of_row(one, treatments.tolerances[one, treatment.id], treatments, subject)
        elif one in treatment.barred_classes:
            text = f"{treatments.classes[one].name}: {'; '.join(treatment.never)}."
            found.append(
                Finding("never", reason_of("never", "default", text, treatment.source, "high", one))
            )
    return found


def by_default(treatment: Treatment) -> Finding:
    """What a treatment outside the matrix says by itself, whatever the class."""
    text = (
        treatment.note or f"{treatment.name}: {treatment.purpose[:1].lower()}{treatment.purpose[1:]}."
    )
    verdict = treatment.default_verdict
    return Finding(verdict, reason_of(verdict, "default", text, treatment.source, "high", treatment.id))


def _of_row(one: str, row: Tolerance, treatments: Treatments, subject: Subject) -> list[Finding]:
    verdict = row.verdict
    open_conditions: tuple[str, ...] = ()
    if row.allowed_verdict and not subject.refuted & set(row.conditions):
        open_conditions = tuple(each for each in row.conditions if each not in subject.conditions)
        verdict = row.verdict if open_conditions else row.allowed_verdict
    return list(_voices(one, treatments.classes[one].name, row, verdict, open_conditions))


@lru_cache(maxsize=4_096)  # a strip asks each row for every choice that is open
def _voices(
    one: str, name: str, row: Tolerance, verdict: Verdict, open_conditions: tuple[str, ...]
) -> tuple[Finding, ...]:
    """A row's own word, and the other side of it."""
    text = f"{name}: {row.reason}"
    found = [
        Finding(
            verdict,
            reason_of(verdict, row.reason_code, text, row.source, row.confidence, one),
            usual_seconds=row.usual_seconds,
            most_seconds=row.most_seconds,
            conditions=open_conditions,
            allowed=row.allowed_verdict,
        )
    ]
    if row.dissent:
        text = f"{name}, the other side: {row.dissent.reason}"
        other = row.dissent.verdict
        reason = reason_of(other, row.reason_code, text, row.dissent.source, row.confidence, one)
        found.append(Finding(other, reason, dissents=True))
    return tuple(found)


def of_issue(issue: str, treatment: Treatment, stamps: Stamps, treatments: Treatments) -> list[Finding]:
    """What the ink table and the notes on an issue's ink say."""
    found: list[Finding] = []
    ink = stamps.inks.get(stamps.issues[issue].ink) if issue in stamps.issues else None
    column = _INK_COLUMN.get(treatment.id)
    if ink and column:
        cell = getattr(ink, column)
        verdict = of_ink(cell.verdict)
        text = f"Ink, {ink.name}: {cell.effect}"
        reason = reason_of(verdict, f"ink_{column}", text, cell.source, cell.certainty, issue)
        aside = f"{ink.id}.{column}" in treatments.limits.ink_cells_as_dissent
        found.append(Finding(verdict, reason, dissents=aside))
    for row in treatments.of_issue.get(issue, ()):
        if row.dissent and treatment.id in row.dissent.treatments:
            verdict = of_ink(row.dissent.verdict)
            reason = reason_of(
                verdict, "ink_notes", row.dissent.reason, row.dissent.source, "low", issue
            )
            found.append(Finding(verdict, reason, dissents=True))
    return found


def brief_dispute(found: Iterable[Finding], treatment: Treatment) -> bool:
    """Whether a brief contact is barred by the ink table's word on water alone.

    That word is about a soak; a class row that lets the shorter contact be is the other side of it. The
    stricter decides all the same.
    """
    if treatment.id not in _BRIEF:
        return False
    plain = [each for each in found if not each.dissents]
    ink = [strictness(each.verdict) for each in plain if each.reason.code == "ink_water"]
    others = [strictness(each.verdict) for each in plain if each.reason.code != "ink_water"]
    return bool(ink) and max(ink) > max(others, default=0)


def strictest_first(found: Iterable[Finding]) -> list[Finding]:
    """Findings with the strictest first, the other sides of disputes after them."""
    return sorted(found, key=lambda each: (each.dissents, -strictness(each.verdict)))
