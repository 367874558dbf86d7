"""Checks by the cancel: its day, its ink, its place, and marks that never cancelled a letter."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from counter.judge.cover.cancels import (
    CancelAnswer,
    CancelSeen,
    brown_cross,
    in_use,
    ink_right,
    kinds_of,
    place_right,
)
from counter.judge.cover.case import Case
from counter.judge.cover.in_use import ORDINARY
from counter.judge.cover.result import (
    CheckResult,
    gravest,
    not_asked,
    speaks_against,
    tells_nothing,
    undecided,
)
from counter.reference.postal_checks import CoverCheck
from counter.values.dates import read_date

_POSTAL = ("maltese_cross", "numeral", "duplex", "squared_circle", "brunswick_star", "machine")
_FISCAL_PEN_FROM = "1881-01-01"
_ON_COVER = ("cover", "front", "piece", "entire")


def cancelled_at_all(case: Case) -> CheckResult:
    """Is the stamp cancelled, as a stamp that paid a letter was?"""
    check, seen = case.check("cancelled_at_all"), case.seen
    if not seen.cancel:
        return undecided(check)
    if seen.cancel != "none":
        return tells_nothing(check, "The stamp is cancelled.")
    if seen.when is None and seen.attachment not in _ON_COVER:
        return undecided(check, "Uncancelled: is it on a cover that went through the post?")
    text = (
        "The stamp is not cancelled: a stamp that paid a letter was, and an uncancelled one on a dated "
        "cover is the usual later addition."
    )
    return speaks_against(check, "moderate", text)


def cancel_period(case: Case) -> CheckResult:
    """Was every kind of cancel on it in use that day?"""
    check, when = case.check("cancel_period"), case.seen.when
    if not case.cancels or when is None:
        return undecided(check)
    return _each(case, check, lambda cancel: _told(check, in_use(case.postal, cancel, when)))


def cancel_colour_period(case: Case) -> CheckResult:
    """Is its colour right for the day and place?"""
    check = case.check("cancel_colour_period")
    coloured = [cancel for cancel in case.cancels if cancel.colour]
    if not coloured:
        return undecided(check)
    return gravest([_ink(case, check, cancel) for cancel in coloured])


def _ink(case: Case, check: CoverCheck, cancel: CancelSeen) -> CheckResult:
    when = case.seen.when
    brown = brown_cross(case.postal, cancel)
    if brown:
        change = case.postal.ink_changes["maltese_cross_brown"]
        text = f"{change.what[:1].upper()}{change.what[1:]} is hardly ever a colour of its own."
        more = {"source": change.source, "confidence": change.confidence, "caution": brown}
        return speaks_against(check, "moderate", text, **more)
    answer = ink_right(case.postal, cancel, when)
    if answer.speaks == "against" and when and answer == in_use(case.postal, cancel, when):
        return not_asked(check, "The day of this cancel is weighed already, whatever its colour.")
    return _told(check, answer)


def cancel_region(case: Case) -> CheckResult:
    """Could it come from the office that posted the letter?"""
    check = case.check("cancel_region")
    if not case.cancels or not case.seen.region:
        return undecided(check)
    return _each(case, check, lambda cancel: _told(check, place_right(case.postal, cancel)))


def cancel_and_stamp(case: Case) -> CheckResult:
    """Do the stamp and its cancel belong to the same years, whatever the date of the cover?"""
    check = case.check("cancel_and_stamp")
    found = [_apart(case, check, cancel) for cancel in case.cancels]
    return gravest([each for each in found if each] or [undecided(check)])


def _apart(case: Case, check: CoverCheck, cancel: CancelSeen) -> CheckResult | None:
    """Against where the stamp had given way before this kind came, or came after it had ended."""
    kinds = kinds_of(case.postal, cancel)
    ordinary = [[each for each in group if each.ordinary] for group in case.seen.groups]
    groups = [group for group in ordinary if group]
    if not kinds or not groups:
        return None
    began = min(date.fromisoformat(kind.first) for kind in kinds)
    ended = max(date.fromisoformat(kind.last) for kind in kinds)
    name, source = cancel.family.replace("_", " "), kinds[0].source
    for group in groups:
        gone = [each.superseded.when.latest for each in group if each.superseded]
        came = [each.issued.when.earliest for each in group if each.issued]
        if len(gone) == len(group) and (began - max(gone)).days > ORDINARY * 365:
            text = (
                f"{group[0].name} had given way by {_month(max(gone))}, and the {name} came in "
                f"{_month(began)}: scarce together; it wants a certificate."
            )
            return speaks_against(check, "moderate", text, source=source)
        if len(came) == len(group) and min(came) > ended:
            text = (
                f"{group[0].name} came in {_month(min(came))}, after the {name} had ended "
                f"({_month(ended)})."
            )
            return speaks_against(check, "moderate", text, source=source)
    return tells_nothing(check, f"The {name} and the stamp were in use together.", source=source)


def cancels_agree(case: Case) -> CheckResult:
    """Where there are two cancels, can both be of one day?"""
    check = case.check("cancels_agree")
    several = [(cancel, kinds_of(case.postal, cancel)) for cancel in case.cancels]
    several = [(cancel, kinds) for cancel, kinds in several if kinds]
    if len(several) < 2:
        return not_asked(check, "One kind of cancel is noted.")
    began = max(min(kind.first for kind in kinds) for _, kinds in several)
    ended = min(max(kind.last for kind in kinds) for _, kinds in several)
    names = " and ".join(cancel.family.replace("_", " ") for cancel, _ in several)
    if began > ended:
        text = f"{names.capitalize()} were never in use together: which of them is the letter's?"
        return speaks_against(check, "moderate", text)
    return undecided(check, f"{names.capitalize()}: is each of them the letter's, and in what order?")


def telegraph_or_fiscal(case: Case) -> CheckResult:
    """Was the stamp used on a telegram or a document?"""
    check, seen = case.check("telegraph_or_fiscal"), case.seen
    families = [cancel.family for cancel in case.cancels]
    if "telegraph" in families:
        return speaks_against(
            check, "strong", "A telegraph mark: the stamp paid a telegram, no letter."
        )
    late_pen = seen.when and seen.when.earliest.isoformat() >= _FISCAL_PEN_FROM
    if "pen" in families and late_pen:
        return speaks_against(check, "moderate", "A pen mark from 1881 on is mostly fiscal use.")
    if "pen" in families:
        return undecided(
            check, "Pen: look for initials or a date, and for a cleaned mark under the lamp."
        )
    if "pinhole" in seen.faults:
        return speaks_against(check, "moderate", "Pinholes: the stamp may have sat on a form.")
    if any(family in _POSTAL for family in families):
        return tells_nothing(check, "A cancel of the letter post.")
    return undecided(check)


def _each(case: Case, check: CoverCheck, judge: Callable[[CancelSeen], CheckResult]) -> CheckResult:
    return gravest([judge(cancel) for cancel in case.cancels] or [undecided(check)])


def _told(check: CoverCheck, answer: CancelAnswer) -> CheckResult:
    """What the cancel facts answer, in the shape of a check. That a kind was in use, or its ink and
    shape right for the place, is no evidence that the stamp belongs."""
    more = {"source": answer.source, "confidence": answer.confidence}
    if answer.speaks == "against":
        # A record that is itself only remembered may caution; a published limit may condemn.
        return speaks_against(check, answer.strength, answer.text, **more)
    if answer.speaks == "for":
        return tells_nothing(check, answer.text, **more)
    return undecided(check, answer.text)


def _month(day: date) -> str:
    return read_date(day.isoformat()[:7]).words()
