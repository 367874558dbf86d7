"""What to look at next, in the order of what would tell most."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from counter.judge.cover.case import Case
from counter.judge.cover.cover_facts import CoverSeen
from counter.judge.cover.result import STRENGTHS, CheckResult
from counter.reference.postal_checks import CoverCheck


@dataclass(frozen=True, slots=True)
class CoverAsk:
    """A question to the cover; `choices` are (value, words) where the answer is one of few.

    `id` is a check's id where the answer decides that check, else the name of a field of CoverSeen.
    """

    id: str
    question: str
    choices: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class _Plain:
    """A plain fact that several checks wait for."""

    ask: CoverAsk
    missing: Callable[[CoverSeen], bool]
    feeds: tuple[str, ...]


_PLAIN = (
    _Plain(
        CoverAsk("when", "What is the date of the postmark?"),
        lambda seen: seen.when is None,
        ("date_before_issue", "cancel_period", "rate_match", "closed_post"),
    ),
    _Plain(
        CoverAsk(
            "tied",
            "Does any cancel tie the stamp to the cover?",
            (("tied", "tied"), ("not_tied", "not tied")),
        ),
        lambda seen: not seen.tied,
        ("tie",),
    ),
    _Plain(
        CoverAsk("cancel", "What cancels the stamp: which kind?"),
        lambda seen: not seen.cancel,
        ("cancel_period", "cancelled_at_all", "telegraph_or_fiscal"),
    ),
    _Plain(
        CoverAsk("cancel_colour", "What colour is the cancel?"),
        lambda seen: not seen.cancel_colour,
        ("cancel_colour_period",),
    ),
    _Plain(
        CoverAsk("town", "Which town posted it?"),
        lambda seen: not seen.region,
        ("cancel_region", "numeral_town"),
    ),
    _Plain(
        CoverAsk("franking", "What is the whole franking?"),
        lambda seen: seen.franking is None,
        ("rate_match",),
    ),
    _Plain(
        CoverAsk("ounces", "What does the letter weigh (or how many sheets and miles)?"),
        lambda seen: seen.ounces is None and seen.sheets is None,
        ("rate_match",),
    ),
    _Plain(
        CoverAsk("arrivals", "Are there backstamps, and of what dates?"),
        lambda seen: not seen.arrivals and seen.backstamp != "none",
        ("transit_time", "route_and_backstamps"),
    ),
    _Plain(
        CoverAsk("second", "It went twice: what is the date of the other journey?"),
        lambda seen: "reused_letter" in seen.marks and seen.second is None,
        ("reused_letter", "letter_content", "tie_continuity"),
    ),
    _Plain(
        CoverAsk("plates", "Which plate is it?"),
        lambda seen: not any(stamp.plate for stamp in seen.stamps),
        ("date_before_plate",),
    ),
)


def what_to_ask(case: Case, results: Iterable[CheckResult]) -> tuple[CoverAsk, ...]:
    """Plain facts that open checks wait for, then what looking would decide, most telling first."""
    open_ = {each.id for each in results if each.open and each.applies}
    seen = case.seen
    plain = [each.ask for each in _PLAIN if each.missing(seen) and open_ & set(each.feeds)]
    looking = [
        check for check in case.postal.checks.values() if check.id in open_ and _may_tell(case, check)
    ]
    looking.sort(key=_tells)
    return (*plain, *(_ask(check) for check in looking))


def _may_tell(case: Case, check: CoverCheck) -> bool:
    """Whether a person's looking could decide it."""
    if check.id == "reconstructed_multiple" and case.seen.multiple == "single" and case.seen.count == 1:
        return False
    return bool(check.answers) and check.id not in case.seen.answers


def _tells(check: CoverCheck) -> tuple[int, int]:
    """What would tell most comes first; of equals, what takes least looking."""
    return -STRENGTHS.index(check.w_for) - STRENGTHS.index(check.w_against), check.effort


def _ask(check: CoverCheck) -> CoverAsk:
    return CoverAsk(check.id, check.question, tuple((each.value, each.text) for each in check.answers))
