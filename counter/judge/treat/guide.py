"""A treatment as it is carried out: what to tick first, then each stage with its seconds."""

from __future__ import annotations

from dataclasses import dataclass, replace

from counter.judge.treat.plan import TreatmentVerdict
from counter.reference.treatment_guides import Check, Stage
from counter.reference.treatments import Treatments
from counter.values.errors import UserError


@dataclass(frozen=True, slots=True)
class Guided:
    """What a guided run shows. Every check is ticked before the first stage starts."""

    treatment: str
    name: str
    checks: tuple[Check, ...]
    stages: tuple[Stage, ...]
    steps: tuple[str, ...]
    watch: tuple[str, ...]
    materials: tuple[str, ...]


def guide(verdict: TreatmentVerdict, seconds: int | None, treatments: Treatments) -> Guided:
    """The guided run of a treatment that may be done; `seconds` None takes the usual time.

    Raises UserError when the verdict is not at least "with care", or no run is guided.
    """
    if verdict.verdict not in ("tolerates", "with care"):
        why = next((reason.text for reason in verdict.reasons), "")
        raise UserError(f"{verdict.name}: {verdict.verdict}, so it is not guided. {why}".strip())
    found = treatments.guides.get(verdict.treatment)
    if found is None:
        raise UserError(f"{verdict.name} is not a timed treatment.")
    treatment = treatments.treatments[verdict.treatment]
    usual, most = verdict.seconds
    planned = seconds or usual or found.usual_s
    if most is not None:
        planned = min(planned, most)
    kind = "lamp" if treatment.id.startswith("uv_") else treatment.kind
    return Guided(
        treatment=treatment.id,
        name=treatment.name,
        checks=tuple(check for check in treatments.checks.values() if kind in check.kinds),
        stages=tuple(
            replace(stage, seconds=planned) if stage.planned else stage for stage in found.stages
        ),
        steps=treatment.steps,
        watch=treatment.watch,
        materials=treatment.materials,
    )
