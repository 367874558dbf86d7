"""Checks by the plate: never used, or at work only after the cover's day."""

from __future__ import annotations

from counter.judge.cover.case import Case
from counter.judge.cover.cover_facts import StampDates
from counter.judge.cover.in_use import begun_by
from counter.judge.cover.plate_record import How, PlateDay
from counter.judge.cover.result import (
    CheckResult,
    gravest,
    kindest,
    speaks_against,
    tells_nothing,
    undecided,
)
from counter.judge.judgement import Strength
from counter.values.dates import When

#: How strongly a date before each speaks, and in what words; only the press is a limit in itself.
_BEFORE: dict[How, tuple[Strength, str]] = {
    "put to press": ("strong", "went to press {on}"),
    "registered": ("moderate", "was registered {on}, and is not known to have worked before"),
    "first issued": ("moderate", "was first issued {on}"),
    "earliest use": ("moderate", "is first recorded in use {on}: an earlier use has to be certified"),
    "inferred": ("moderate", "is not believed before {when} (inferred)"),
    "recalled": ("moderate", "is recalled as first used about {when}"),
    "by its number": (
        "moderate",
        "is among the last numbers of its issue, so hardly used before about {when} (inferred)",
    ),
}


def date_before_plate(case: Case) -> CheckResult:
    """Dated before the plate was at work?"""
    check, when = case.check("date_before_plate"), case.seen.when
    answers = []
    for group in case.seen.groups:
        plated = [stamp for stamp in group if stamp.plate and stamp.ordinary]
        dated = [stamp for stamp in plated if stamp.plate_days or stamp.plate_fault]
        if dated and len(dated) == len(plated):
            answers.append(_of_stamp(case, dated, when))
    if not answers:
        return undecided(check, "The plate, or its dates, are not known.")
    return gravest(answers)


def _of_stamp(case: Case, stamps: list[StampDates], when: When | None) -> CheckResult:
    """The kindest of the issues that existed on the day; the issue's own day has a check to itself."""
    begun = begun_by(stamps, when) if when else stamps
    return kindest([_of_issue(case, stamp, when) for stamp in begun or stamps])


def _of_issue(case: Case, stamp: StampDates, when: When | None) -> CheckResult:
    check, plate = case.check("date_before_plate"), f"Plate {stamp.plate}"
    if stamp.plate_fault:
        text = f"{plate} of {stamp.name}: {stamp.plate_fault}. Is the number read right?"
        return speaks_against(check, "moderate", text)
    if when is None:
        return undecided(check, "The date of the cover is not known.")
    early = [each for each in stamp.plate_days if when.compared(each.fact.when) == "before"]
    if early:
        return gravest([_too_early(case, plate, each, when) for each in early])
    known = stamp.plate_days[0]
    text = f"Dated {when.words()}; {plate[0].lower()}{plate[1:]} {_said(known)}: the date is in order."
    return tells_nothing(check, text, source=known.fact.source, confidence=known.fact.confidence)


def _too_early(case: Case, plate: str, known: PlateDay, when: When) -> CheckResult:
    strength, fact = _BEFORE[known.how][0], known.fact
    text = f"Dated {when.words()}; {plate[0].lower()}{plate[1:]} {_said(known)}."
    check = case.check("date_before_plate")
    return speaks_against(check, strength, text, source=fact.source, confidence=fact.confidence)


def _said(known: PlateDay) -> str:
    when = known.fact.when
    words = when.words()
    on = f"{'on' if when.exact else 'in'} {words}"
    return _BEFORE[known.how][1].format(on=on, when=words)
