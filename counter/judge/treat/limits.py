"""The caps no class can lift: how strong, how long."""

from __future__ import annotations

from collections.abc import Sequence

from counter.judge.treat.class_findings import Finding, reason_of
from counter.reference.treatment_records import Treatment
from counter.reference.treatments import Treatments
from counter.values.strength import StrengthReading


def most_seconds(treatment: Treatment, found: Sequence[Finding]) -> tuple[int | None, int | None]:
    """The usual and the longest time: the shortest that any row or the treatment itself allows."""
    usual = min((each.usual_seconds for each in found if each.usual_seconds), default=None)
    caps = [each.most_seconds for each in found if each.most_seconds]
    if treatment.most_seconds:
        caps.append(treatment.most_seconds)
    return usual, min(caps, default=None)


def cap_findings(
    treatment: Treatment,
    readings: tuple[StrengthReading, ...] | None,
    seconds: int | None,
    found: Sequence[Finding],
    treatments: Treatments,
) -> list[Finding]:
    """Never, for a strength above the cap or not known, and for a time above the longest.

    A strength that was not said at all is a question, not a finding (see verdict.py).
    """
    said = []
    if treatment.strength_refuse_above_wv is not None and readings is not None:
        if not readings:
            said.append(_never("CONC_UNKNOWN", "strength not known", "label_doubt", treatments))
        elif readings[0].strength.percent_wv > treatment.strength_refuse_above_wv:
            strongest = readings[0].strength.percent_wv
            on = f"{strongest:.2f} % w/v, the most allowed {treatment.strength_refuse_above_wv:g}"
            said.append(_never("CONC_HIGH", on, "conc_cap", treatments))
    _, most = most_seconds(treatment, found)
    if seconds is not None and most is not None and seconds > most:
        said.append(_never("TIME_LONG", f"{seconds} s, the most allowed {most}", "", treatments))
    return said


def _never(code: str, on: str, rule: str, treatments: Treatments) -> Finding:
    about = treatments.reasons[code]
    source = treatments.rules[rule].source if rule else about.source
    text = f"{about.text} ({on})"
    return Finding("never", reason_of("never", code, text, source, "high", on))
