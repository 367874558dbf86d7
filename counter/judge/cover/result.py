"""One check decided (or not), and how the checks together make a finding."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from counter.judge.cover.finding import Finding
from counter.judge.judgement import Reason, Strength
from counter.reference.postal_checks import CoverCheck

Says = Literal["for", "against", "not decided"]

STRENGTHS: tuple[Strength, ...] = ("none", "weak", "moderate", "strong")
_ENOUGH_WEAK = 3  # so many agreeing weak points, with none against, are a consistent cover


@dataclass(frozen=True, slots=True)
class CheckResult:
    """A check's answer. `applies` is false where the question makes no sense for this cover."""

    id: str
    speaks: Says
    strength: Strength
    reason: str
    source: str
    confidence: str
    caution: str = ""
    applies: bool = True

    def as_reason(self) -> Reason:
        """The shape that every answer is shown in."""
        speaks: Literal["for", "against", "neutral"] = (
            "neutral" if self.speaks == "not decided" else self.speaks
        )
        return Reason(self.id, self.reason, self.source, self.confidence, speaks, self.strength)


def speaks_for(check: CoverCheck, strength: Strength, why: str, **more: str) -> CheckResult:
    """In favour of the stamp belonging, never more strongly than the check allows."""
    return _result(check, "for", weaker(strength, check.w_for), why, more)


def speaks_against(check: CoverCheck, strength: Strength, why: str, **more: str) -> CheckResult:
    """Against the stamp belonging, never more strongly than the check or a memory allows."""
    limit = weaker(strength, check.w_against)
    if more.get("source") == "memory":
        limit = weaker(limit, "moderate")
    return _result(check, "against", limit, why, more)


def undecided(check: CoverCheck, why: str = "", **more: str) -> CheckResult:
    """Not decided: what would have to be looked at."""
    return _result(check, "not decided", "none", why or f"To look at: {', '.join(check.gather)}.", more)


def not_asked(check: CoverCheck, why: str) -> CheckResult:
    """The question makes no sense for this cover."""
    return CheckResult(check.id, "not decided", "none", why, check.source, "", applies=False)


def kindest(results: list[CheckResult]) -> CheckResult:
    """Of the answers for several stamps: one in favour, else an open one, else the first."""
    order = {"for": 0, "not decided": 1, "against": 2}
    return min(results, key=lambda each: order[each.speaks])


def weaker(one: Strength, other: Strength) -> Strength:
    """The weaker of two strengths."""
    return min(one, other, key=STRENGTHS.index)


def _result(
    check: CoverCheck, speaks: Says, strength: Strength, why: str, more: dict[str, str]
) -> CheckResult:
    source = more.get("source") or check.source
    trade = "medium" if source == "common practice" else "high"
    confidence = more.get("confidence") or ("low" if source == "memory" else trade)
    return CheckResult(check.id, speaks, strength, why, source, confidence, more.get("caution", ""))


def find(results: Iterable[CheckResult], checks: dict[str, CoverCheck]) -> Finding:
    """The finding: one strong "against" outweighs everything short of a certificate.

    Against a genuine certificate for this very item a strong contradiction leaves a caution: the
    paper and the evidence disagree, and only the committee can say which is wrong.
    """
    weighed = [each for each in results if checks[each.id].bears_on == "belonging"]
    against = {each.strength for each in weighed if each.speaks == "against"}
    favour = [each for each in weighed if each.speaks == "for"]
    if "strong" in against:
        certified = any(each.id == "certificate" and each.strength == "strong" for each in favour)
        return "caution" if certified else "contradicts"
    if "moderate" in against:
        return "caution"
    weighty = any(each.strength in ("moderate", "strong") for each in favour)
    return "consistent" if weighty or len(favour) >= _ENOUGH_WEAK else "undecided"
