"""A measured gauge judged: the standard gauges it agrees with, the issues left, what cannot be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counter.judge.judgement import Judgement, Reason
from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Issue
from counter.values.gauge import Measured, read_gauge

#: How far paper moves a true gauge, in holes per 2 cm either way (separation "gauge_tolerance").
PAPER = 0.25


@dataclass(frozen=True, slots=True)
class GaugeReading:
    """What a measurement leaves: standard gauges for each side measured, and issue ids.

    `agrees_with` is for the side along the top, or the only side; `agrees_down` for the other.
    `sides` says whether two sides agree: "equal", "unequal", or "" when one was measured.
    """

    agrees_with: tuple[float, ...]
    agrees_down: tuple[float, ...]
    sides: str
    issues: tuple[str, ...]
    cautions: tuple[str, ...]


def reach(measured: Measured) -> float:
    """How far from the truth a measurement may lie, movement of the paper included."""
    return math.hypot(measured.plus_minus, 2 * PAPER / math.sqrt(3))


def read_gauges(stamps: Stamps, across: Measured, down: Measured | None = None) -> GaugeReading:
    """Judge one side, or top and side, against every gauge of the reference."""
    standards = sorted(
        {
            side
            for issue in stamps.issues.values()
            for gauge in issue.characters.gauges
            for side in read_gauge(gauge)
        }
    )
    agrees = tuple(each for each in standards if _near(across, each))
    agrees_down = tuple(each for each in standards if down and _near(down, each))
    issues = tuple(each.id for each in stamps.issues.values() if _fits(each, across, down))
    sides = "" if down is None else "unequal" if _unequal(across, down) else "equal"
    return GaugeReading(agrees, agrees_down, sides, issues, _cautions(stamps, across, down, sides))


def _near(measured: Measured, standard: float) -> bool:
    return abs(measured.value - standard) <= reach(measured)


def _unequal(across: Measured, down: Measured) -> bool:
    return abs(across.value - down.value) > math.hypot(across.plus_minus, down.plus_minus)


def _fits(issue: Issue, across: Measured, down: Measured | None) -> bool:
    for gauge in issue.characters.gauges:
        top, side = read_gauge(gauge)
        if down is None and (_near(across, top) or _near(across, side)):
            return True
        if down is not None and _near(across, top) and _near(down, side):
            return True
    return False


def _cautions(stamps: Stamps, across: Measured, down: Measured | None, sides: str) -> tuple[str, ...]:
    tolerance, trimmed = stamps.separations["gauge_tolerance"], stamps.separations["gauge_trimmed"]
    short = min(each.length_mm for each in (across, down) if each) < 20
    made = [tolerance.text] if short else []
    if down is None or sides == "unequal":
        made.append(trimmed.text)
    return tuple(made)


def gauge_for(
    issue: Issue, stamps: Stamps, across: Measured, down: Measured | None = None
) -> Judgement:
    """Whether a measured gauge can be the issue's own, and if not, why."""
    tolerance = stamps.separations["gauge_tolerance"]
    own = " or ".join(_spoken(each) for each in issue.characters.gauges)
    told = f"{across.value:.1f}" + (f" x {down.value:.1f}" if down else "")
    margin = f"within {reach(across):.2f} of it, paper included"
    if not issue.characters.gauges:
        if "imperforate" in issue.characters.separations:
            return _impossible(issue, stamps, f"{issue.name} was issued imperforate", told)
        return Judgement(f"the gauge of {issue.name} is not established")
    if _fits(issue, across, down):
        text = f"{told} agrees with {own}: {margin}"
        reason = Reason("gauge", text, issue.source, issue.confidence, "for", "moderate", "gauge")
        return Judgement("can be its own gauge", (reason, _tolerance(tolerance.text)))
    return _impossible(issue, stamps, f"{issue.name} gauges {own}", told)


def _spoken(gauge: str) -> str:
    """15x14 is "15 x 14"; 16x16 is just "16"."""
    across, _, down = gauge.partition("x")
    return across if down in ("", across) else f"{across} x {down}"


def _tolerance(text: str) -> Reason:
    return Reason("gauge_tolerance", text, "common practice", "common practice", rests_on="gauge")


def _impossible(issue: Issue, stamps: Stamps, what: str, told: str) -> Judgement:
    first = Reason(
        "gauge",
        f"{what}, not {told}",
        issue.source,
        issue.confidence,
        "against",
        "strong",
        "gauge",
    )
    likely = [
        Reason(each.id, f"{each.what}: {'; '.join(each.tell)}", each.source, each.confidence)
        for each in stamps.lookalikes.values()
        if each.id in ("reperforated", "trimmed_perforated_as_imperforate")
        and issue.id in each.looks_like
    ]
    trimmed = stamps.separations["gauge_trimmed"]
    asks = ("Measure the opposite edge as well: do both agree?",)
    return Judgement(
        "cannot be a genuine gauge for this issue", (first, *likely), asks, (trimmed.text,)
    )
