"""The name on the bottle: a barred liquid, a wrong one or one nobody knows ends the question."""

from __future__ import annotations

from dataclasses import replace

from counter.judge.treat.class_findings import Finding, reason_of
from counter.judge.treat.fluids import name_fluid
from counter.judge.treat.hazards import Hazards
from counter.reference.treatment_records import Treatment, Verdict
from counter.reference.treatments import Treatments


def bottle_findings(treatment: Treatment, product: str, treatments: Treatments) -> list[Finding]:
    """What the product named says against the treatment; nothing when it is right, or not named."""
    if not product.strip():
        return []
    match = name_fluid(product, treatments)
    if match is None:
        other = treatments.treatments["watermark_other_fluid"]
        return [_finding("unknown", "unknown_product", other.note, other.source, product)]
    fluid = match.fluid
    if fluid.barred:
        text = fluid.text if match.exact else f"{product!r} is as near to {fluid.name}. {fluid.text}"
        return [_finding("never", "PERSON_TOXIC", text, fluid.source, product)]
    if treatments.treatments[fluid.treatment].kind != treatment.kind:
        text = f"{fluid.name[:1].upper()}{fluid.name[1:]} is not what this treatment is done with."
        return [_finding("never", "wrong_product", text, fluid.source, product)]
    return []


def name_said(treatment: Treatment, product: str, treatments: Treatments) -> str:
    """What the answer is about: the treatment, or the liquid itself where that ends the question."""
    match = name_fluid(product, treatments) if product.strip() else None
    if match is None or not match.fluid.barred:
        return treatment.name
    return f"{match.fluid.name[:1].upper()}{match.fluid.name[1:]}"


def with_bottle(hazards: Hazards, product: str, treatments: Treatments) -> Hazards:
    """The hazards with the statements of the liquid that was named added."""
    match = name_fluid(product, treatments) if product.strip() else None
    if match is None or not match.fluid.barred:
        return hazards
    more = [code for name in match.fluid.hazards for code in treatments.hazards[name].h_codes]
    codes = tuple(dict.fromkeys((*more, *hazards.h_codes)))
    return replace(
        hazards, h_codes=codes, h_words=tuple(treatments.hazard_words.h[code] for code in codes)
    )


def _finding(verdict: Verdict, code: str, text: str, source: str, product: str) -> Finding:
    return Finding(verdict, reason_of(verdict, code, text, source, "high", product))
