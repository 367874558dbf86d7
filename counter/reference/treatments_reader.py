"""Read the treatments from their data files, cross-checked."""

from __future__ import annotations

from pathlib import Path
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
from counter.reference.loader import DATA, DataFault, Tables, build, build_all, read_folder
from counter.reference.sources import read_sources
from counter.reference.treatment_checks import check_treatments
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
from counter.reference.treatments import Treatments

Record = TypeVar("Record")


def read_treatments(data: Path = DATA) -> Treatments:
    """Read and check `data/treatments/`; raises DataFault naming file, record and field at fault."""
    tables = read_folder("treatments", data)
    made = Treatments(
        sources=read_sources(tables),
        limits=build(Limits, tables["limits"]["limits"], "limits.toml [limits]"),
        rules=build_all(Rule, tables, "rules", "rule"),
        reasons={
            row["code"]: build(ReasonCode, row, f"rules.toml [[reason]] {row['code']}")
            for row in tables["rules"]["reason"]
        },
        treatments=_gather(Treatment, tables, "treatments_", "treatment"),
        classes=_gather(ItemClass, tables, "classes_", "class"),
        tolerances=_tolerances(tables),
        questions={
            row["key"]: build(Question, row, f"questions.toml [[question]] {row['key']}")
            for row in tables["questions"]["question"]
        },
        conditions=build_all(Condition, tables, "questions", "condition"),
        fault_classes=tuple(build_all(FaultClass, tables, "questions", "fault").values()),
        issue_classes=_issue_classes(tables),
        checks=build_all(Check, tables, "guides", "check"),
        guides={row.treatment: row for row in build_all(Guide, tables, "guides", "guide").values()},
        fluids=build_all(Fluid, tables, "fluids", "fluid"),
        figures=build_all(Figure, tables, "strengths", "figure"),
        conversions=build_all(ConversionTable, tables, "strengths", "conversion"),
        densities=build_all(DensityTable, tables, "strengths", "density"),
        dilutions=build_all(DilutionExample, tables, "strengths", "dilution"),
        statements=build_all(Statement, tables, "chemistry", "statement"),
        bands=build_all(Band, tables, "hazard_bands", "band"),
        steps=build_all(Steps, tables, "hazard_bands", "step"),
        precautions=build_all(Precaution, tables, "hazard_bands", "precaution"),
        hazards=build_all(Hazard, tables, "hazards", "hazard")
        | build_all(Hazard, tables, "hazards_other", "hazard"),
        hazard_words=build(HazardWords, tables["hazard_words"]["words"], "hazard_words.toml [words]"),
        dimensions=build_all(Dimension, tables, "dimensions", "dimension"),
    )
    check_treatments(made)
    return made


def _gather(record: type[Record], tables: Tables, prefix: str, key: str) -> dict[str, Record]:
    """The records of every file whose name starts with `prefix`; an id in two files is a fault."""
    made: dict[str, Record] = {}
    for file in sorted(name for name in tables if name.startswith(prefix)):
        for name, each in build_all(record, tables, file, key).items():
            if name in made:
                raise DataFault(f"{file}.toml [[{key}]] {name}: the id is in two files")
            made[name] = each
    return made


def _tolerances(tables: Tables) -> dict[tuple[str, str], Tolerance]:
    """Each `[[tolerance]]` row names its class; every other entry is a treatment's row."""
    made: dict[tuple[str, str], Tolerance] = {}
    for file in sorted(name for name in tables if name.startswith("tolerance_")):
        for row in tables[file]["tolerance"]:
            for treatment, entry in row.items():
                if treatment == "class":
                    continue
                key = (row["class"], treatment)
                if key in made:
                    raise DataFault(f"{file}.toml [[tolerance]] {key[0]}.{treatment}: given twice")
                made[key] = build(Tolerance, entry, f"{file}.toml [[tolerance]] {key[0]}.{treatment}")
    return made


def _issue_classes(tables: Tables) -> tuple[IssueClasses, ...]:
    return tuple(
        build(IssueClasses, row, f"{file}.toml [[issue_classes]] {row.get('issues', ['?'])[0]}")
        for file in ("issues", "issues_sets")
        for row in tables[file]["issue_classes"]
    )
