"""Does the stamp belong to the cover? Every check that can be decided, and what they come to.

A finding, never a certificate: whoever needs certainty sends the item to an expert committee.
"""

from __future__ import annotations

from dataclasses import dataclass

from counter.judge.cover import cancel_checks, date_checks, evidence_checks, money_checks
from counter.judge.cover.asking import Ask, what_to_ask
from counter.judge.cover.case import Case, Decide
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.finding import WORDS, Finding
from counter.judge.cover.result import STRENGTHS, CheckResult, find, not_asked, undecided
from counter.judge.judgement import Judgement
from counter.reference.postal import Postal

_STATIONERY = (
    "Postal stationery: an impressed stamp is not in the reference; what is said of the stamp holds "
    "for an adhesive on it only."
)
_SEVERAL = (
    "{} are named: check each stamp by itself with the same date and cancel, and say the whole as in "
    "“franked 5d”."
)
DEFER = "A finding, not a certificate: for certainty ask an expert committee."

#: Checks that facts and observations decide; the rest are decided by a person's answer alone.
DECIDED_BY: dict[str, Decide] = {
    "date_before_issue": date_checks.date_before_issue,
    "date_before_plate": date_checks.date_before_plate,
    "date_long_after": date_checks.date_long_after,
    "first_day_claim": date_checks.first_day_claim,
    "stampless_entire": date_checks.stampless_entire,
    "closed_post": date_checks.closed_post,
    "rate_match": money_checks.rate_match,
    "service_fits": money_checks.service_fits,
    "charge_marks": money_checks.charge_marks,
    "value_vs_service": money_checks.value_vs_service,
    "cancel_period": cancel_checks.cancel_period,
    "cancel_colour_period": cancel_checks.cancel_colour_period,
    "cancel_region": cancel_checks.cancel_region,
    "used_abroad_on_inland": cancel_checks.used_abroad_on_inland,
    "telegraph_or_fiscal": cancel_checks.telegraph_or_fiscal,
    "tie": evidence_checks.tie,
    "hidden_fault": evidence_checks.hidden_fault,
    "sulphided_colour": evidence_checks.sulphided_colour,
    "transit_time": evidence_checks.transit_time,
    "route_and_backstamps": evidence_checks.route_and_backstamps,
    "corner_letters_multiple": evidence_checks.corner_letters_multiple,
    "certificate": evidence_checks.certificate,
    "water_or_peroxide_ok": evidence_checks.water_or_peroxide_ok,
    "reused_letter": evidence_checks.reused_letter,
    "front_only": evidence_checks.front_only,
}

#: What may still be asked of a letter that never bore a stamp.
_WITHOUT_STAMP = frozenset(
    {"charge_marks", "transit_time", "route_and_backstamps", "paper_era", "letter_content"}
    | {"closed_post", "reused_letter", "front_only", "certificate"}
)


@dataclass(frozen=True, slots=True)
class CoverFinding:
    """What the checks come to: `results` for every check, decided ones first."""

    finding: Finding
    words: str
    results: tuple[CheckResult, ...]
    asks: tuple[Ask, ...]
    cautions: tuple[str, ...]

    def decided(self) -> tuple[CheckResult, ...]:
        """The checks that speak one way or the other."""
        return tuple(each for each in self.results if each.speaks != "not decided")

    def judgement(self) -> Judgement:
        """In the shape that every answer is shown in."""
        reasons = tuple(each.as_reason() for each in self.results if each.applies)
        return Judgement(
            self.words, reasons, tuple(each.question for each in self.asks), (*self.cautions, DEFER)
        )


def check_cover(postal: Postal, seen: CoverSeen) -> CoverFinding:
    """Weigh a cover; every check is answered, if only by "not decided"."""
    case = Case(postal, seen)
    results = [_decide(case, name) for name in postal.checks]
    finding = find(results, postal.checks)
    asks = what_to_ask(case, results)
    results.sort(key=_weight)
    cautions = [each.caution for each in results if each.caution]
    if seen.attachment == "stationery" and not seen.stampless:
        cautions.append(_STATIONERY)
    if seen.several:
        cautions.append(_SEVERAL.format(" and ".join(seen.several)))
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


def _weight(result: CheckResult) -> tuple[int, int]:
    """Against before for before not decided; strongest first."""
    order = {"against": 0, "for": 1, "not decided": 2}
    return order[result.speaks], -STRENGTHS.index(result.strength)


def _words(finding: Finding, results: list[CheckResult]) -> str:
    decided = [each for each in results if each.speaks != "not decided"]
    applying = sum(each.applies for each in results)
    return f"{WORDS[finding]} ({len(decided)} of {applying} questions decided)"
