"""Does the stamp belong to the cover? Every check that can be decided, and what they come to.

A finding, never a certificate: whoever needs certainty sends the item to an expert committee.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from counter.judge.cover import (
    cancel_checks,
    charge_checks,
    date_checks,
    evidence_checks,
    numeral_checks,
    plate_checks,
    rate_checks,
)
from counter.judge.cover.asking import CoverAsk, what_to_ask
from counter.judge.cover.case import Case, Decide
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.finding import FINDINGS, WORDS, Finding, find, joins
from counter.judge.cover.result import STRENGTHS, CheckResult, not_asked, undecided
from counter.judge.judgement import Judgement
from counter.reference.postal import Postal

_STATIONERY = (
    "Postal stationery: an impressed stamp is not in the reference; what is said of the stamp holds "
    "for an adhesive on it only."
)
_TWICE = "It went twice: judged by the journey of {}."
DEFER = "A finding, not a certificate: for certainty ask an expert committee."

#: Checks that facts and observations decide; the rest are decided by a person's answer alone.
DECIDED_BY: dict[str, Decide] = {
    "date_before_issue": date_checks.date_before_issue,
    "date_before_plate": plate_checks.date_before_plate,
    "date_long_after": date_checks.date_long_after,
    "first_day_claim": date_checks.first_day_claim,
    "stampless_entire": date_checks.stampless_entire,
    "closed_post": date_checks.closed_post,
    "rate_match": rate_checks.rate_match,
    "service_fits": rate_checks.service_fits,
    "value_vs_service": rate_checks.value_vs_service,
    "charge_marks": charge_checks.charge_marks,
    "cancelled_at_all": cancel_checks.cancelled_at_all,
    "cancel_period": cancel_checks.cancel_period,
    "cancel_colour_period": cancel_checks.cancel_colour_period,
    "cancel_region": cancel_checks.cancel_region,
    "cancel_and_stamp": cancel_checks.cancel_and_stamp,
    "cancels_agree": cancel_checks.cancels_agree,
    "telegraph_or_fiscal": cancel_checks.telegraph_or_fiscal,
    "numeral_town": numeral_checks.numeral_town,
    "used_abroad_on_inland": numeral_checks.used_abroad_on_inland,
    "tie": evidence_checks.tie,
    "hidden_fault": evidence_checks.hidden_fault,
    "sulphided_colour": evidence_checks.sulphided_colour,
    "transit_time": evidence_checks.transit_time,
    "route_and_backstamps": evidence_checks.route_and_backstamps,
    "corner_letters_multiple": evidence_checks.corner_letters_multiple,
    "certificate": evidence_checks.certificate,
    "water_or_peroxide_ok": evidence_checks.water_or_peroxide_ok,
    "letter_content": evidence_checks.letter_content,
    "reused_letter": evidence_checks.reused_letter,
    "front_only": evidence_checks.front_only,
}

#: What may still be asked of a letter that never bore a stamp.
_WITHOUT_STAMP = frozenset(
    {
        "charge_marks",
        "date_before_issue",
        "transit_time",
        "route_and_backstamps",
        "paper_era",
        "letter_content",
    }
    | {"closed_post", "reused_letter", "front_only", "certificate"}
)


@dataclass(frozen=True, slots=True)
class CoverFinding:
    """What the checks come to: `results` for every check, decided ones first."""

    finding: Finding
    words: str
    results: tuple[CheckResult, ...]
    asks: tuple[CoverAsk, ...]
    cautions: tuple[str, ...]

    def decided(self) -> tuple[CheckResult, ...]:
        """The checks that speak one way or the other, the weightiest first."""
        return tuple(each for each in self.results if each.speaks != "neutral")

    def judgement(self) -> Judgement:
        """In the shape that every answer is shown in."""
        reasons = tuple(each.as_reason() for each in self.results if each.applies)
        return Judgement(
            self.words, reasons, tuple(each.question for each in self.asks), (*self.cautions, DEFER)
        )


def check_cover(postal: Postal, seen: CoverSeen) -> CoverFinding:
    """Weigh a cover; every check is answered, if only by "not decided".

    A letter that went twice is weighed by each of its dates, and the one that fits better is told.
    """
    if seen.second is None:
        return _judged(postal, seen)
    twice = [(when, _judged(postal, replace(seen, when=when))) for when in (seen.when, seen.second)]
    when, best = min(twice, key=lambda each: FINDINGS.index(each[1].finding))
    return replace(best, cautions=(*best.cautions, _TWICE.format(when.words() if when else "")))


def _judged(postal: Postal, seen: CoverSeen) -> CoverFinding:
    case = Case(postal, seen)
    results = [_decide(case, name) for name in postal.checks]
    finding = find(results, postal.checks)
    asks = what_to_ask(case, results)
    results.sort(key=lambda each: _weight(each, postal))
    cautions = [each.caution for each in results if each.caution]
    if seen.attachment == "stationery" and not seen.stampless:
        cautions.append(_STATIONERY)
    return CoverFinding(finding, _words(finding, results), tuple(results), asks, tuple(cautions))


def _decide(case: Case, name: str) -> CheckResult:
    """By the facts; a person's answer stands beside them and the graver of the two is kept."""
    check = case.postal.checks[name]
    if case.seen.stampless and name not in _WITHOUT_STAMP:
        return not_asked(check, "No stamp is claimed for it.")
    by_hand = evidence_checks.as_answered(case, name)
    by_facts = DECIDED_BY[name](case) if name in DECIDED_BY else undecided(check)
    if by_hand is None:
        return by_facts
    if by_facts.speaks == "against" and by_hand.speaks == "for":
        return by_facts
    if by_facts.speaks == by_hand.speaks:
        return max(by_facts, by_hand, key=lambda each: STRENGTHS.index(each.strength))
    return by_hand


def _weight(result: CheckResult, postal: Postal) -> tuple[int, bool, int, bool]:
    """Against before for before neutral, what joins before what does not, strongest first."""
    order = {"against": 0, "for": 1, "neutral": 2}
    joining = joins(result, postal.checks)
    return order[result.speaks], not joining, -STRENGTHS.index(result.strength), result.open


def _words(finding: Finding, results: list[CheckResult]) -> str:
    answered = sum(not each.open for each in results if each.applies)
    applying = sum(each.applies for each in results)
    return f"{WORDS[finding]} ({answered} of {applying} questions answered)"
