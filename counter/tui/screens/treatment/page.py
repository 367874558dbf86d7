"""A treatment's answer as a page: the verdict, both sides, the bottle, cautions, hazards."""

from __future__ import annotations

from collections.abc import Sequence

from counter.judge.judgement import Reason
from counter.judge.treat.plan import DEFERENCE, Plan, TreatmentVerdict
from counter.reference.treatment_records import Treatment
from counter.reference.treatments import Treatments
from counter.tui.screens.peroxide.bar import bar_lines, reading_lines
from counter.tui.screens.peroxide.hazard_lines import hazard_rows
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.reasons import reason_lines, verdict_spans
from counter.tui.widgets.text import Line

_UNANSWERED = "not answered"


def treatment_lines(
    verdict: TreatmentVerdict, plan: Plan, treatments: Treatments, width: int
) -> list[Line]:
    """The whole page for a width in cells."""
    cited = Cited(treatments.sources)
    treatment = treatments.treatments[verdict.treatment]
    lines = [*_head(verdict, width), *_reasons(verdict.reasons, cited, width)]
    lines += _bottle(plan, treatments, width)
    lines.append([])
    for caution in verdict.cautions:
        if caution != DEFERENCE:
            lines += prose(caution, width, "care", head=("  ! ", "care"))
    if verdict.could_be in ("tolerates", "with care"):
        lines += _how(treatment, width)
    found = hazard_rows(verdict.hazards, cited, width)
    if found:
        lines += [[], [("  To the person", "head")], *found]
    return [*lines, *cited.lines(width)]


def _head(verdict: TreatmentVerdict, width: int) -> list[Line]:
    line: Line = [("  ", "plain"), *verdict_spans(verdict.verdict, disputed=verdict.disputed)]
    if not verdict.asks:
        ends = {"never": ": leave it.", "unknown": ": that means don't."}
        return [[*line, (ends.get(verdict.verdict, ""), "plain")]]
    count = len(verdict.asks)
    asked = "a question is" if count == 1 else f"{count} questions are"
    return [
        line,
        *prose(f"until {asked} answered; then it could be {verdict.could_be}.", width, "care"),
    ]


def _reasons(reasons: Sequence[Reason], cited: Cited, width: int) -> list[Line]:
    """For, against, and what only counts while a question is open."""
    open_ones = [each for each in reasons if each.rests_on.startswith(_UNANSWERED)]
    sure = [each for each in reasons if each not in open_ones]
    groups = (
        ("Speaks against it", [each for each in sure if each.speaks == "against"]),
        ("Speaks for it", [each for each in sure if each.speaks != "against"]),
        ("Counts against it until it is answered", open_ones),
    )
    lines: list[Line] = []
    for head, found in groups:
        if not found:
            continue
        lines += [[], [(f"  {head}", "head")]]
        lines += reason_lines(found, cited, width)
    return lines


def _bottle(plan: Plan, treatments: Treatments, width: int) -> list[Line]:
    if plan.readings is None:
        return []
    lines: list[Line] = [[], [("  The bottle in hand", "head")]]
    lines += reading_lines(plan.readings) if plan.readings else []
    return [*lines, *bar_lines(plan.readings, treatments, width)]


def _how(treatment: Treatment, width: int) -> list[Line]:
    lines: list[Line] = [[], [("  How it is done", "head")]]
    for number, step in enumerate(treatment.steps, 1):
        lines += prose(step, width, head=(f"  {number} ", "accent"))
    for sign in treatment.watch:
        lines += prose(f"Stop at: {sign}", width, "care", head=("  ! ", "care"))
    return lines
