"""The treatment reference: what may be done to which stamp, and what it may do to the person."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar

from counter.reference.chemistry_records import (
    ConversionTable,
    DensityTable,
    DilutionExample,
    Figure,
    Statement,
)
from counter.reference.hazard_records import (
    Band,
    Dimension,
    Hazard,
    HazardWords,
    Precaution,
    Steps,
)
from counter.reference.sources import Source
from counter.reference.treatment_guides import Check, Guide
from counter.reference.treatment_questions import (
    Condition,
    FaultClass,
    Fluid,
    IssueClasses,
    Question,
)
from counter.reference.treatment_records import (
    ItemClass,
    Limits,
    ReasonCode,
    Rule,
    Tolerance,
    Treatment,
)
from counter.values.strength import Scale

Record = TypeVar("Record")


@dataclass(frozen=True, slots=True)
class Treatments:
    """Everything known of treatments.

    `tolerances` is keyed by (class id, treatment id); `of_issue` holds the rows of `issue_classes`
    by issue id.
    """

    sources: dict[str, Source]
    limits: Limits
    rules: dict[str, Rule]
    reasons: dict[str, ReasonCode]
    treatments: dict[str, Treatment]
    classes: dict[str, ItemClass]
    tolerances: dict[tuple[str, str], Tolerance]
    questions: dict[str, Question]
    conditions: dict[str, Condition]
    fault_classes: tuple[FaultClass, ...]
    issue_classes: tuple[IssueClasses, ...]
    fluids: dict[str, Fluid]
    checks: dict[str, Check]
    guides: dict[str, Guide]
    figures: dict[str, Figure]
    conversions: dict[str, ConversionTable]
    densities: dict[str, DensityTable]
    dilutions: dict[str, DilutionExample]
    statements: dict[str, Statement]
    bands: dict[str, Band]
    steps: dict[str, Steps]
    precautions: dict[str, Precaution]
    hazards: dict[str, Hazard]
    hazard_words: HazardWords
    dimensions: dict[str, Dimension]
    of_issue: dict[str, tuple[IssueClasses, ...]] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        rows: dict[str, tuple[IssueClasses, ...]] = {}
        for row in self.issue_classes:
            for issue in row.issues:
                rows[issue] = (*rows.get(issue, ()), row)
        object.__setattr__(self, "of_issue", rows)  # every draw of the strip asks it

    @property
    def scale(self) -> Scale:
        """What strengths are converted by: molar mass, volume factors, the handbook densities.

        The handbook series ends at 70 % w/w; pure peroxide's own density closes it. At 0 % the
        first two points are drawn on, which gives water.
        """
        factors = self.statements["volume_rtp_conflict"].numbers or {}
        points = [
            (each.percent_ww, each.g_per_ml)
            for each in self.densities["density_points_handbook"].points
        ]
        pure = self.densities["density_points_enc"].points[-1]
        (one, first), (two, second) = points[:2]
        water = first - (second - first) / (two - one) * one
        return Scale(
            self.figures["molar_mass"].value,
            factors["factor_stp"],
            factors["factor_rtp"],
            ((0.0, water), *points, (pure.percent_ww, pure.g_per_ml)),
        )
