"""Checks by the calendar: issue, plate, late use, first days, and days without post."""

from __future__ import annotations

from datetime import date

from counter.judge.cover.case import FIRST_USE, FIRST_VALID, Case
from counter.judge.cover.cover_facts import DatedFact, StampDates
from counter.judge.cover.in_use import ORDINARY, begun_by, earliest_of, latest_of, years_after
from counter.judge.cover.result import (
    CheckResult,
    kindest,
    not_asked,
    speaks_against,
    speaks_for,
    undecided,
)
from counter.values.dates import When, read_date

#: Years after a stamp was superseded to which a use is no more than unusual.
_UNUSUAL = 7
_NO_DATE = "The date of the cover is not known."
_NO_STAMP = "The stamp is not identified."


def date_before_issue(case: Case) -> CheckResult:
    """Dated before the stamp existed?"""
    check, when = case.check("date_before_issue"), case.seen.when
    stamps = [stamp for stamp in case.seen.stamps if stamp.issued]
    if when is None or not stamps:
        return undecided(check, _NO_DATE if when is None else _NO_STAMP)
    answer = kindest([_against_issue(case, stamp, when) for stamp in stamps])
    # Where none of them existed yet the earliest of them decides how surely.
    named = earliest_of(stamps) if answer.speaks == "against" else latest_of(stamps, when)
    again = _against_issue(case, named, when) if named else answer
    return again if again.speaks == answer.speaks else answer


def _against_issue(case: Case, stamp: StampDates, when: When) -> CheckResult:
    check = case.check("date_before_issue")
    issued = stamp.issued
    assert issued is not None
    more = {"source": issued.source, "confidence": issued.confidence}
    said = f"{stamp.name} was issued {_on(issued.when)}"
    if when.compared(issued.when) == "before":
        return speaks_against(check, "strong", f"Dated {when.words()}; {said}.", **more)
    if stamp.valid and when.compared(stamp.valid.when) == "before":
        valid = f"{said} and valid from {stamp.valid.when.words()}"
        if when.earliest.isoformat() < FIRST_USE:
            return speaks_against(
                check, "strong", f"{valid}; no use before 2 May 1840 is recorded.", **more
            )
        text = f"{valid}; a few earlier uses are known, each to be certified."
        return speaks_against(check, "moderate", text, **more)
    if when.compared(issued.when) == "may overlap" and not when.exact:
        return undecided(check, f"{said}; the cover is dated {when.words()}: the day would tell.")
    return speaks_for(check, "weak", f"Dated {when.words()}; {said}.", **more)


def date_before_plate(case: Case) -> CheckResult:
    """Dated before the plate was put to press?"""
    check, when = case.check("date_before_plate"), case.seen.when
    stamps = [stamp for stamp in case.seen.stamps if stamp.pressed or stamp.first_known]
    if when is None or not stamps:
        return undecided(check, _NO_DATE if when is None else "The plate, or its dates, are not known.")
    return kindest([_against_plate(case, stamp, when) for stamp in stamps])


def _against_plate(case: Case, stamp: StampDates, when: When) -> CheckResult:
    check = case.check("date_before_plate")
    plate = f"plate {stamp.plate}"
    if stamp.pressed and when.compared(stamp.pressed.when) == "before":
        text = f"Dated {when.words()}; {plate} went to press {_on(stamp.pressed.when)}."
        return speaks_against(check, "strong", text, **_from(stamp.pressed))
    if stamp.first_known and when.compared(stamp.first_known.when) == "before":
        known = stamp.first_known
        text = f"Dated {when.words()}; the earliest use recorded of {plate} is {known.when.words()}."
        return speaks_against(check, "weak", text, **_from(known))
    fact = stamp.pressed or stamp.first_known
    assert fact is not None
    text = f"Dated {when.words()}; {plate} was in use from {fact.when.words()}."
    return speaks_for(check, "weak", text, **_from(fact))


def date_long_after(case: Case) -> CheckResult:
    """Dated long after the stamp was in ordinary use?"""
    check, when = case.check("date_long_after"), case.seen.when
    stamps = [stamp for stamp in case.seen.stamps if stamp.superseded]
    if when is None or not stamps:
        return undecided(check, _NO_DATE if when is None else "When it went out of use is not known.")
    last = latest_of(stamps, when)
    if last is None or last.superseded is None:
        return undecided(check, "The stamp did not exist yet.")
    gone, years = last.superseded, years_after(last, when)
    said = f"Dated {when.words()}; {last.name} gave way {_on(gone.when)}"
    if years > _UNUSUAL and (other := _current(case, last, when)):
        text = f"{said}, long before; {other.name} was in ordinary use that day: which of them is it?"
        return undecided(check, text, **_from(gone))
    if years > _UNUSUAL:
        text = f"{said}, {years:.0f} years before: still valid, but rare so late."
        return speaks_against(check, "moderate", text, **_from(gone))
    if years > ORDINARY:
        return speaks_against(check, "weak", f"{said}: late, but still valid.", **_from(gone))
    return speaks_for(check, "weak", f"{said}: an ordinary time to use it.", **_from(gone))


def _current(case: Case, last: StampDates, when: When) -> StampDates | None:
    """Another issue that it may be, less likely by itself, but in ordinary use on the day."""
    begun = [each for each in begun_by(case.seen.stamps, when) if each is not last]
    return next((each for each in begun if years_after(each, when) <= ORDINARY), None)


def first_day_claim(case: Case) -> CheckResult:
    """Is a first day or an earliest use claimed, and does the rest bear it out?"""
    check, seen = case.check("first_day_claim"), case.seen
    if not _claims_first_day(case):
        return not_asked(check, "No first day or earliest use is claimed.")
    certified = seen.answers.get("certificate") == "genuine"
    if certified and seen.arrivals:
        return speaks_for(
            check, "moderate", "Despatch, arrival and a certificate agree on the day claimed."
        )
    text = "A first day rests on this date: it wants an agreeing arrival mark and a certificate."
    return speaks_against(check, "moderate", text)


def _claims_first_day(case: Case) -> bool:
    day = case.seen.day
    if case.has("first_day_cover") and (day is None or day.year < 1925):
        return True
    if day is None:
        return False
    early = FIRST_USE <= day.isoformat() <= FIRST_VALID
    return early and any(stamp.valid for stamp in case.seen.stamps)


def stampless_entire(case: Case) -> CheckResult:
    """Could it have gone without a stamp, to which one was added?"""
    check, seen = case.check("stampless_entire"), case.seen
    if case.has("free"):
        return speaks_against(check, "strong", "A FREE mark: the letter needed no stamp.")
    if seen.when and seen.when.latest.isoformat() < FIRST_USE:
        text = f"Dated {seen.when.words()}, before any adhesive: it went without a stamp."
        return speaks_against(check, "strong", text)
    if case.has("addl_half", "uniform_4d_ms"):
        text = "A charge mark of before 10 January 1840, when there were no adhesives."
        return speaks_against(check, "strong", text, source="gbps_1839", confidence="high")
    if seen.tied == "tied" and seen.answers.get("charge_marks") == "none":
        return speaks_for(check, "weak", "No charge mark, and the cancel ties the stamp.")
    return undecided(check)


def closed_post(case: Case) -> CheckResult:
    """Was the post working that day?"""
    check, day = case.check("closed_post"), case.seen.day
    if day is None:
        return undecided(check, "The day is not known.")
    strike = case.postal.key_dates["strike-1971"]
    if date.fromisoformat(strike.day) <= day <= date(1971, 3, 7):
        more = {"source": strike.source, "confidence": strike.confidence}
        return speaks_against(check, "moderate", f"{strike.what}.", **more)
    if day.isoweekday() == 7:
        text = f"{read_date(day.isoformat()).words()} was a Sunday: was there a collection?"
        return speaks_against(check, "weak", text)
    return speaks_for(check, "weak", f"{day:%A}, {read_date(day.isoformat()).words()}: a working day.")


def _from(fact: DatedFact) -> dict[str, str]:
    return {"source": fact.source, "confidence": fact.confidence}


def _on(when: When) -> str:
    if " to " in when.words():
        return "between " + when.words().replace(" to ", " and ")
    return f"{'on' if when.exact else 'in'} {when.words()}"
