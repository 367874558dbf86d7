"""Every cross-reference of the treatment data: what one record names must be there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from counter.reference.loader import DataFault
from counter.reference.sources import check_source
from counter.reference.treatments import Treatments


def check_treatments(made: Treatments) -> None:
    """Raise DataFault for the first record that names something missing."""
    _check_sources(made)
    _check_matrix(made)
    _check_treatments(made)
    _check_questions(made)
    _check_hazards(made)


def _known(names: Iterable[str], there: Mapping[str, object], where: str) -> None:
    for name in names:
        if name not in there:
            raise DataFault(f"{where}: there is no {name!r}")


def _check_sources(made: Treatments) -> None:
    groups: dict[str, Iterable[tuple[str, object]]] = {
        "rule": made.rules.items(),
        "reason": made.reasons.items(),
        "treatment": made.treatments.items(),
        "class": made.classes.items(),
        "tolerance": ((".".join(key), row) for key, row in made.tolerances.items()),
        "question": made.questions.items(),
        "issue_classes": ((row.issues[0], row) for row in made.issue_classes),
        "fluid": made.fluids.items(),
        "check": made.checks.items(),
        "guide": made.guides.items(),
        "figure": made.figures.items(),
        "conversion": made.conversions.items(),
        "density": made.densities.items(),
        "dilution": made.dilutions.items(),
        "statement": made.statements.items(),
        "band": made.bands.items(),
        "step": made.steps.items(),
        "precaution": made.precautions.items(),
        "hazard": made.hazards.items(),
        "dimension": made.dimensions.items(),
    }
    for kind, rows in groups.items():
        for name, row in rows:
            for source in (getattr(row, "source"), *getattr(row, "also", ())):  # noqa: B009
                check_source(source, made.sources, f"[[{kind}]] {name}")


def _check_matrix(made: Treatments) -> None:
    """Exactly one row for each class and matrix treatment, with reasons and conditions known."""
    wanted = {(one, each) for one in made.classes for each in made.limits.matrix_treatments}
    for one, each in wanted ^ made.tolerances.keys():
        fault = "missing" if (one, each) in wanted else "of no class or matrix treatment"
        raise DataFault(f"[[tolerance]] {one}.{each}: {fault}")
    for (one, each), row in made.tolerances.items():
        where = f"[[tolerance]] {one}.{each}"
        _known([row.reason_code], made.reasons, f"{where}.reason_code")
        _known(row.conditions, made.conditions, f"{where}.conditions")
        if bool(row.allowed_verdict) != bool(row.conditions):
            raise DataFault(f"{where}: allowed_verdict and conditions go together")
        if row.dissent:
            check_source(row.dissent.source, made.sources, f"{where}.dissent")


def _check_treatments(made: Treatments) -> None:
    for each in made.treatments.values():
        where = f"[[treatment]] {each.id}"
        _known(each.person_hazards, {**made.hazards, **made.bands}, f"{where}.person_hazards")
        _known(each.barred_classes, made.classes, f"{where}.barred_classes")
        if (each.verdict_from == "matrix") != (each.id in made.limits.matrix_treatments):
            raise DataFault(f"{where}.verdict_from: does not agree with limits.matrix_treatments")


def _check_questions(made: Treatments) -> None:
    for question in made.questions.values():
        for choice in question.choices:
            _known(choice.classes, made.classes, f"[[question]] {question.key}.{choice.value}")
    papers = {choice.value: choice for choice in made.questions["paper"].choices}
    for fault in made.fault_classes:
        _known(fault.classes, made.classes, f"[[fault]] {fault.words[0]}")
    for row in made.issue_classes:
        where = f"[[issue_classes]] {row.issues[0]}"
        _known((*row.classes, *row.may_be, *row.gums), made.classes, where)
        _known(row.papers, papers, f"{where}.papers")
        if row.dissent:
            _known(row.dissent.treatments, made.treatments, f"{where}.dissent")
            check_source(row.dissent.source, made.sources, f"{where}.dissent")


def _check_hazards(made: Treatments) -> None:
    for precaution in made.precautions.values():
        _known(precaution.for_bands, made.bands, f"[[precaution]] {precaution.id}.for_bands")
    for fluid in made.fluids.values():
        _known(fluid.hazards, made.hazards, f"[[fluid]] {fluid.id}.hazards")
        _known([fluid.treatment] if fluid.treatment else [], made.treatments, f"[[fluid]] {fluid.id}")
    _known(made.guides, made.treatments, "[[guide]] treatment")
    coded = [(each.id, each.h_codes) for each in made.hazards.values()]
    coded += [(each.id, each.h_codes) for each in made.bands.values()]
    for name, codes in coded:
        _known(codes, made.hazard_words.h, f"[[hazard]] {name}.h_codes")
