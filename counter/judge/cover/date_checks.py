"""Checks by the calendar: the issue's first day, late use, first-day claims, days without post."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from counter.judge.cover.case import FIRST_USE, FIRST_VALID, Case
from counter.judge.cover.cover_facts import StampDates
from counter.judge.cover.dated_facts import DatedFact
from counter.judge.cover.in_use import ORDINARY, begun_by, earliest_of, latest_of, years_after
from counter.judge.cover.result import (
    CheckResult,
    gravest,
    kindest,
    not_asked,
    speaks_against,
    speaks_for,
    tells_nothing,
    undecided,
)
from counter.values.dates import When, read_date

#: Years after a stamp was superseded to which a use is no more than unusual.
_UNUSUAL = 7
_NO_DATE = "The date of the cover is not known."
_NO_STAMP = "The stamp is not identified."
_RARITIES = {
    "not_issued": "was never issued",
    "trial": "is a trial",
    "rarity": "is a rarity",
    "certificate": "is not to be believed without a certificate",
}


def date_before_issue(case: Case) -> CheckResult:
    """Dated before the stamp existed?"""
    check, when = case.check("date_before_issue"), case.seen.when
    groups = [[stamp for stamp in group if stamp.issued] for group in case.seen.groups]
    groups = [group for group in groups if group]
    if not groups:
        return undecided(check, _NO_STAMP)
    return gravest([_of_stamp(case, group, when) for group in groups])


def _of_stamp(case: Case, stamps: list[StampDates], when: When | None) -> CheckResult:
    """Of the issues that one stamp may be only those of ordinary standing explain a date."""
    check = case.check("date_before_issue")
    ordinary = [stamp for stamp in stamps if stamp.ordinary]
    if not ordinary:
        return speaks_against(check, "moderate", f"{_rarity(stamps[0])}.")
    if when is None:
        return undecided(check, _NO_DATE)
    answer = _kindest_of(lambda stamp: _against_issue(case, stamp, when), ordinary, when)
    early = [each for each in stamps if not each.ordinary and begun_by([each], when)]
    if answer.speaks == "against" and early:
        text = (
            f"{answer.reason[:-1]}. Only {early[0].name} could be so early, and that {_why(early[0])}."
        )
        return speaks_against(check, "moderate", text, source=answer.source)
    return answer


def _kindest_of(
    judge: Callable[[StampDates], CheckResult], stamps: list[StampDates], when: When
) -> CheckResult:
    """The kindest answer, told of the issue that decides how surely."""
    answer = kindest([judge(stamp) for stamp in stamps])
    named = earliest_of(stamps) if answer.speaks == "against" else latest_of(stamps, when)
    again = judge(named) if named else answer
    return again if (again.speaks, again.open) == (answer.speaks, answer.open) else answer


def _rarity(stamp: StampDates) -> str:
    return f"{stamp.name}: on a cover this {_why(stamp)}; look again before it explains anything"


def _why(stamp: StampDates) -> str:
    return _RARITIES.get(stamp.standing, "wants a certificate")


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
    return tells_nothing(check, f"Dated {when.words()}; {said}: the date is in order.", **more)


def date_long_after(case: Case) -> CheckResult:
    """Dated long after the stamp was in ordinary use?"""
    check, when = case.check("date_long_after"), case.seen.when
    groups = [
        [each for each in group if each.superseded and each.ordinary] for group in case.seen.groups
    ]
    groups = [group for group in groups if group]
    if when is None or not groups:
        return undecided(check, _NO_DATE if when is None else "When it went out of use is not known.")
    return gravest([_long_after(case, group, when) for group in groups])


def _long_after(case: Case, stamps: list[StampDates], when: When) -> CheckResult:
    check, last = case.check("date_long_after"), latest_of(stamps, when)
    if last is None or last.superseded is None:
        return undecided(check, "The stamp did not exist yet.")
    gone, years = last.superseded, years_after(last, when)
    said = f"Dated {when.words()}; {last.name} gave way {_on(gone.when)}"
    if years > _UNUSUAL and (other := _current(stamps, last, when)):
        text = f"{said}, long before; {other.name} was in ordinary use that day: which of them is it?"
        return undecided(check, text, **_from(gone))
    if years > _UNUSUAL:
        text = f"{said}, {years:.0f} years before: still valid, but rare so late."
        return speaks_against(check, "moderate", text, **_from(gone))
    if years > ORDINARY:
        return speaks_against(check, "weak", f"{said}: late, but still valid.", **_from(gone))
    return tells_nothing(check, f"{said}: an ordinary time to use it.", **_from(gone))


def _current(stamps: list[StampDates], last: StampDates, when: When) -> StampDates | None:
    """Another issue that it may be, less likely by itself, but in ordinary use on the day."""
    begun = [each for each in begun_by(stamps, when) if each is not last]
    return next((each for each in begun if years_after(each, when) <= ORDINARY), None)


def first_day_claim(case: Case) -> CheckResult:
    """Is a first day or an earliest use claimed, and does the rest bear it out?"""
    check, seen = case.check("first_day_claim"), case.seen
    day = seen.day
    if case.has("first_day_cover") and day is not None:
        issued = [each.issued for each in seen.stamps if each.ordinary and each.issued]
        exact = [fact for fact in issued if fact.when.exact and not fact.memory]
        if exact and all(fact.when.compared(seen.when or fact.when) != "may overlap" for fact in exact):
            text = f"Said to be a first day, yet {seen.stamps[0].name} was issued {_on(exact[0].when)}."
            return speaks_against(check, "moderate", text, **_from(exact[0]))
    if not _claims_first_day(case):
        return not_asked(check, "No first day or earliest use is claimed.")
    if seen.answers.get("certificate") == "genuine" and seen.arrivals:
        return speaks_for(
            check, "moderate", "Despatch, arrival and a certificate agree on the day claimed."
        )
    advice = (
        "A first day rests on its date: an agreeing arrival mark and a certificate before its price."
    )
    return tells_nothing(check, advice, caution=advice)


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
    said = f"{day:%A}, {read_date(day.isoformat()).words()}"
    if day.isoweekday() == 7:
        return tells_nothing(check, f"{said}: was there a collection? Country offices had one.")
    return tells_nothing(check, f"{said}: a working day.")


def _from(fact: DatedFact) -> dict[str, str]:
    return {"source": fact.source, "confidence": fact.confidence}


def _on(when: When) -> str:
    if " to " in when.words():
        return "between " + when.words().replace(" to ", " and ")
    return f"{'on' if when.exact else 'in'} {when.words()}"
