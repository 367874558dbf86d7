"""What to say beside every verdict, most needed first; the usual deference last."""

from __future__ import annotations

from collections.abc import Sequence

from counter.judge.treat.class_findings import Finding
from counter.judge.treat.fluids import name_fluid
from counter.judge.treat.limits import most_seconds
from counter.judge.treat.plan import DEFERENCE, Plan
from counter.reference.treatment_records import Treatment, Verdict
from counter.reference.treatments import Treatments
from counter.values.seconds import seconds_words


def cautions_for(
    treatment: Treatment,
    plan: Plan,
    found: Sequence[Finding],
    could_be: Verdict,
    treatments: Treatments,
) -> list[str]:
    """The cautions of a treatment as planned, a sentence or two each.

    How it is done is told only where it may be done at all; the rest stands under every answer.
    """
    said = _liquid(treatment, plan, treatments)
    if could_be in ("tolerates", "with care"):
        said = [*_doing(treatment, found, treatments), *said]
    else:
        said.append(treatments.rules["refer"].text)
    said.append(f"Never: {'; '.join(treatment.never)}." if treatment.never else "")
    said.append(DEFERENCE)
    return [each for each in said if each]


def _doing(treatment: Treatment, found: Sequence[Finding], treatments: Treatments) -> list[str]:
    """Where, for what, how long, what first, and who is told."""
    said = []
    if treatment.wet and not treatment.at_fair:
        said.append("At home, with water to hand: nothing wet is done at a stall.")
    if treatment.kind == "peroxide":
        said.append("Only for sulphide darkening: a red, orange, blue or cancel gone brown or black.")
        said.append(treatments.figures["sulphide_need"].text)
    usual, most = most_seconds(treatment, found)
    if usual and most:
        said.append(f"{seconds_words(usual)} is usual, {seconds_words(most)} the most.")
    elif most and treatment.wet:
        said.append(f"At most {seconds_words(most)}.")
    if treatment.wet:
        said.append(treatments.rules["try_expendable"].text)
    if treatment.disclose == "must":
        what = treatment.disclose_note.removeprefix("say: ") or "what was done"
        said.append(f"The buyer must be told: {what}.")
    return said


def _liquid(treatment: Treatment, plan: Plan, treatments: Treatments) -> list[str]:
    """What to say of the strength and of the bottle."""
    said = []
    if plan.readings and treatment.strength_min_wv and treatment.strength_max_wv:
        strongest = plan.readings[0].strength.percent_wv
        if strongest < treatment.strength_min_wv:
            said.append(
                "Weaker than it is guided for: little may happen, and longer is not the answer."
            )
        elif strongest > treatment.strength_max_wv * 1.02:
            said.append(f"Stronger than the {treatment.strength_max_wv:g} % w/v it is guided for.")
    if plan.readings is not None and treatment.strength_max_wv is None:
        said.append(f"{treatment.name} takes no strength; the one given was left out.")
    if treatment.kind == "spirit" and not plan.product:
        said.append(treatments.fluids["petroleum_spirit"].text)
    match = name_fluid(plan.product, treatments) if plan.product else None
    if match:
        said.append(match.fluid.text)
    return said
