"""What a cover check may find, and the one rule by which the checks together find it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal

from counter.judge.cover.result import CheckResult
from counter.reference.postal_checks import CoverCheck

Finding = Literal["consistent", "undecided", "caution", "contradicts"]

#: From best to worst: more against never moves a finding to the left.
FINDINGS: tuple[Finding, ...] = ("consistent", "undecided", "caution", "contradicts")
WORDS: dict[Finding, str] = {
    "consistent": "joined to its cover; nothing found against it",
    "undecided": "nothing weighty against it, nothing that joins it",
    "caution": "something speaks against belonging; take care",
    "contradicts": "speaks against belonging",
}
#: How findings kept by earlier versions begin, so that they are not taken for somebody's own words.
EARLIER_WORDS = ("speaks for belonging, as far as it was looked at", "too little is known to say")
#: What may stand on a paper where the dealer puts it there: it claims nothing.
LOOKED_AT = "cover looked at: nothing found against"
_WEIGHTY = ("moderate", "strong")


def find(results: Iterable[CheckResult], checks: Mapping[str, CoverCheck]) -> Finding:
    """The finding, by what speaks against first and by what joins stamp and cover after.

    One strong "against" contradicts; beside a genuine certificate for this very item it cautions, for
    then paper and evidence disagree and only the committee can say which is wrong. A moderate "against"
    cautions. Else the cover is consistent where something that joins speaks for it, moderately or
    strongly; all the rest is undecided. Weak points are told and decide nothing.
    """
    weighed = [each for each in results if checks[each.id].bears_on == "belonging"]
    against = {each.strength for each in weighed if each.speaks == "against"}
    joining = [each for each in weighed if joins(each, checks)]
    if "strong" in against:
        certified = any(each.id == "certificate" and each.strength == "strong" for each in joining)
        return "caution" if certified else "contradicts"
    if "moderate" in against:
        return "caution"
    return "consistent" if joining else "undecided"


def joins(result: CheckResult, checks: Mapping[str, CoverCheck]) -> bool:
    """Whether an answer is evidence that this stamp came through the post on this cover."""
    return checks[result.id].joins and result.speaks == "for" and result.strength in _WEIGHTY
