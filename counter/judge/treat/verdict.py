"""May I treat it: the strictest word over every class the item belongs to, and what is still to ask."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from counter.judge.judgement import Reason
from counter.judge.treat.asking import (
    SULPHIDED,
    OpenAsk,
    nothing_to_cure,
    open_choices,
    open_conditions,
    open_darkening,
    open_strength,
)
from counter.judge.treat.cautions import cautions_for
from counter.judge.treat.class_findings import (
    Finding,
    brief_dispute,
    by_default,
    findings,
    of_issue,
    reason_of,
    strictest_first,
)
from counter.judge.treat.hazards import treatment_hazards
from counter.judge.treat.limits import cap_findings, most_seconds
from counter.judge.treat.plan import Ask, IfIssue, Plan, TreatmentVerdict
from counter.judge.treat.product_name import bottle_findings, name_said, with_bottle
from counter.judge.treat.subject import Standing, Subject, standing
from counter.judge.treat.verdict_order import strictest, strictness
from counter.reference.stamps import Stamps
from counter.reference.treatment_records import Treatment
from counter.reference.treatments import Treatments
from counter.values.errors import InputError

#: Classes for which the stricter side of a dispute decides (rule "dissent").
_STRICT_CLASSES = frozenset({"certified_or_rare", "on_cover"})


def may_i_treat(
    subject: Subject,
    plan: Plan,
    stamps: Stamps,
    treatments: Treatments,
    *,
    today: date,
    stands: Standing | None = None,
) -> TreatmentVerdict:
    """The full verdict for a subject and a plan; raises InputError for an unknown treatment.

    `stands` is the subject's standing where it was worked out already, for another treatment.

    Monotone: never milder for a further class or fault, a stronger solution or a longer time.
    """
    treatment = treatments.treatments.get(plan.treatment)
    if treatment is None:
        raise InputError(
            f"There is no treatment {plan.treatment!r}; "
            f"try one of {', '.join(treatments.limits.matrix_treatments)}."
        )
    stands = stands or standing(subject, treatments)
    found = findings(stands.classes, treatment, treatments, subject)
    if treatment.verdict_from == "default_verdict":
        found.append(by_default(treatment))
    if len(subject.issues) == 1:
        found += of_issue(subject.issues[0], treatment, stamps, treatments)
    found += cap_findings(treatment, plan.readings, plan.seconds, found, treatments)
    found += _rules(treatment, plan, treatments, today)
    bottle = bottle_findings(treatment, plan.product, treatments)
    if any(each.reason.code == "PERSON_TOXIC" for each in bottle):
        # what is in the bottle ends it: what another liquid may do to the stamp is not said of it
        return _answer(treatment, bottle, (), True, stands.classes, plan, treatments)
    found += bottle
    cures = treatment.kind == "peroxide" and treatment.strength_max_wv is not None
    if cures and "no" in subject.answers.get(SULPHIDED, ()):
        found.append(nothing_to_cure(treatments))
    still_open = open_choices(stands.open, subject, treatment, stamps, treatments)
    still_open += open_conditions(found, treatments)
    if cures and SULPHIDED not in stands.classes and SULPHIDED not in subject.answers:
        still_open.append(open_darkening(treatments))
    if treatment.strength_max_wv is not None and plan.readings is None:
        still_open.append(open_strength())
    found += [each for asked in still_open for each in asked.dissents]
    strict = bool(_STRICT_CLASSES & stands.classes.keys())
    return _answer(treatment, found, still_open, strict, stands.classes, plan, treatments)


def _answer(
    treatment: Treatment,
    found: Sequence[Finding],
    still_open: Sequence[OpenAsk],
    strict: bool,
    classes: Iterable[str],
    plan: Plan,
    treatments: Treatments,
) -> TreatmentVerdict:
    trade = strictest(each.verdict for each in found if not each.dissents and not each.conditions)
    hard = strictest((trade, *(each.verdict for each in found if each.dissents)))
    known = hard if strict else trade
    best = {each.key: min((c[2] for c in each.choices), key=strictness) for each in still_open}
    worst = [max((c[2] for c in each.choices), key=strictness) for each in still_open]
    could_be = strictest((known, *best.values()))
    asks: list[Ask] = []
    unsaid: list[Finding] = []
    if_issue: list[IfIssue] = []
    for each in still_open:
        others = strictest((known, *(verdict for key, verdict in best.items() if key != each.key)))
        told = tuple((value, words, strictest((others, v))) for value, words, v in each.choices)
        if each.key == "issue":
            named = zip(told, each.brings, strict=True)
            if_issue = [IfIssue(issue, name, brings, word) for (issue, name, word), brings in named]
        matters = len({verdict for _, _, verdict in told}) > 1
        if matters:
            asks.append(Ask(each.key, each.words, told))
        if matters or best[each.key] == could_be:
            unsaid += each.worst
    return TreatmentVerdict(
        treatment=treatment.id,
        name=name_said(treatment, plan.product, treatments),
        verdict=strictest((known, *worst)),
        could_be=could_be,
        disputed=strictest((hard, *best.values())) != strictest((trade, *best.values()))
        or brief_dispute(found, treatment),
        classes=tuple(classes),
        reasons=_reasons((*found, *unsaid)),
        asks=tuple(asks),
        hazards=with_bottle(
            treatment_hazards(treatment, plan.readings or (), treatments), plan.product, treatments
        ),
        cautions=tuple(cautions_for(treatment, plan, found, could_be, treatments)),
        seconds=most_seconds(treatment, found),
        at_fair=treatment.at_fair,
        if_issue=tuple(if_issue),
    )


def _reasons(findings: Iterable[Finding]) -> tuple[Reason, ...]:
    """The reasons, the strictest first, each once."""
    reasons: dict[tuple[str, str], Reason] = {}
    for finding in strictest_first(findings):
        reasons.setdefault((finding.reason.code, finding.reason.text), finding.reason)
    return tuple(reasons.values())


def _rules(treatment: Treatment, plan: Plan, treatments: Treatments, today: date) -> list[Finding]:
    """The rules that stand above the classes: nothing wet at a stall, or twice on one day."""
    found = []
    if plan.where == "stall" and not treatment.at_fair:
        found.append(_rule("NOT_AT_FAIR", "fair_table", treatments))
    wet_today = [
        done
        for done in plan.earlier
        if done.date == today.isoformat()
        and (done.treatment not in treatments.treatments or treatments.treatments[done.treatment].wet)
    ]
    if treatment.wet and wet_today:
        found.append(_rule("no_second_bath", "no_second_bath", treatments))
    return found


def _rule(code: str, rule: str, treatments: Treatments) -> Finding:
    about = treatments.rules[rule]
    return Finding("never", reason_of("never", code, about.text, about.source, "high", rule))
