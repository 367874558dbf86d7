"""One check answered, and how an answer is made within what the check and its source allow."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counter.judge.judgement import Reason, Speaks, Strength
from counter.reference.postal_checks import CoverCheck

STRENGTHS: tuple[Strength, ...] = ("none", "weak", "moderate", "strong")


@dataclass(frozen=True, slots=True)
class CheckResult:
    """A check's answer: for, against, or neutral, how strongly, and why.

    `open` while looking or asking could still decide it; `applies` is false where the question makes
    no sense for this cover. `source` is never empty. A `caution` must not be overlooked, whichever way
    the check speaks.
    """

    id: str
    speaks: Speaks
    strength: Strength
    reason: str
    source: str
    confidence: str
    caution: str = ""
    applies: bool = True
    open: bool = False

    def as_reason(self) -> Reason:
        """The shape that every answer is shown in."""
        return Reason(self.id, self.reason, self.source, self.confidence, self.speaks, self.strength)


def speaks_for(check: CoverCheck, strength: Strength, why: str, **more: str) -> CheckResult:
    """In favour of the stamp belonging, never more strongly than the check allows."""
    return _result(check, "for", weaker(strength, check.w_for), why, more)


def speaks_against(check: CoverCheck, strength: Strength, why: str, **more: str) -> CheckResult:
    """Against the stamp belonging, never more strongly than the check or a memory allows."""
    limit = weaker(strength, check.w_against)
    if more.get("source") == "memory":
        limit = weaker(limit, "moderate")
    return _result(check, "against", limit, why, more)


def tells_nothing(check: CoverCheck, why: str, **more: str) -> CheckResult:
    """Looked at and in order, which is no evidence that stamp and cover belong together."""
    return _result(check, "neutral", "none", why, more)


def undecided(check: CoverCheck, why: str = "", **more: str) -> CheckResult:
    """Not decided: what would have to be looked at."""
    return _result(
        check, "neutral", "none", why or f"To look at: {', '.join(check.gather)}.", more, open=True
    )


def not_asked(check: CoverCheck, why: str) -> CheckResult:
    """The question makes no sense for this cover."""
    return CheckResult(check.id, "neutral", "none", why, check.source, "", applies=False)


def kindest(results: Iterable[CheckResult]) -> CheckResult:
    """Of the answers for the issues that one stamp may be, the one most in its favour."""
    return min(results, key=_gravity)


def gravest(results: Iterable[CheckResult]) -> CheckResult:
    """Of the answers for several stamps or cancels, the one most against the cover."""
    return max(results, key=_gravity)


def weaker(one: Strength, other: Strength) -> Strength:
    """The weaker of two strengths."""
    return min(one, other, key=STRENGTHS.index)


def _gravity(result: CheckResult) -> tuple[int, int]:
    """For, in order, open, against: how much an answer weighs against a cover."""
    if result.speaks == "neutral":
        return (2 if result.open else 1), 0
    strength = STRENGTHS.index(result.strength)
    return (0, -strength) if result.speaks == "for" else (3, strength)


def _result(
    check: CoverCheck,
    speaks: Speaks,
    strength: Strength,
    why: str,
    more: dict[str, str],
    *,
    open: bool = False,
) -> CheckResult:
    source = more.get("source") or check.source
    trade = "medium" if source == "common practice" else "high"
    confidence = more.get("confidence") or ("low" if source == "memory" else trade)
    if strength == "none":
        speaks = "neutral"
    return CheckResult(
        check.id, speaks, strength, why, source, confidence, more.get("caution", ""), open=open
    )
