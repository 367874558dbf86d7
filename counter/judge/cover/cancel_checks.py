"""Checks by the cancel: its day, its ink, its place, and marks that never cancelled a letter."""

from __future__ import annotations

import re

from counter.judge.cover.cancels import CancelAnswer, brown_cross, in_use, ink_right, place_right
from counter.judge.cover.case import Case
from counter.judge.cover.result import CheckResult, not_asked, speaks_against, speaks_for, undecided
from counter.reference.postal_checks import CoverCheck

_ABROAD_NUMBER = re.compile(r"[A-F]\d{1,2}")
_POSTAL = ("maltese_cross", "numeral", "duplex", "squared_circle", "brunswick_star", "machine")
_FISCAL_PEN_FROM = "1881-01-01"


def cancel_period(case: Case) -> CheckResult:
    """Was this kind of cancel in use that day?"""
    check, seen = case.check("cancel_period"), case.seen
    if not seen.cancel or seen.cancel == "none" or seen.when is None:
        return undecided(check)
    return _told(check, in_use(case.postal, case.cancel, seen.when))


def cancel_colour_period(case: Case) -> CheckResult:
    """Is its colour right for the day and place?"""
    check, seen = case.check("cancel_colour_period"), case.seen
    if not seen.cancel or seen.cancel == "none" or not seen.cancel_colour:
        return undecided(check)
    brown = brown_cross(case.postal, case.cancel)
    if brown:
        change = case.postal.ink_changes["maltese_cross_brown"]
        text = f"{change.what[:1].upper()}{change.what[1:]} is hardly ever a colour of its own."
        more = {"source": change.source, "confidence": change.confidence, "caution": brown}
        return speaks_against(check, "moderate", text, **more)
    answer = ink_right(case.postal, case.cancel, seen.when)
    if (
        answer.speaks == "against"
        and seen.when
        and answer == in_use(case.postal, case.cancel, seen.when)
    ):
        return not_asked(check, "The day of this cancel is weighed already, whatever its colour.")
    return _told(check, answer)


def cancel_region(case: Case) -> CheckResult:
    """Could it come from the office that posted the letter?"""
    check = case.check("cancel_region")
    if not case.seen.cancel or not case.seen.region:
        return undecided(check)
    return _told(check, place_right(case.postal, case.cancel))


def used_abroad_on_inland(case: Case) -> CheckResult:
    """A cancel of an office abroad on an inland cover, or the other way about?"""
    check, seen = case.check("used_abroad_on_inland"), case.seen
    numbered = _ABROAD_NUMBER.fullmatch(seen.cancel_number.upper())
    if seen.cancel_type != "num_used_abroad" and not numbered:
        return not_asked(check, "The cancel is not one of an office abroad.")
    if seen.region == "abroad" or case.has("ship_letter") or seen.to_abroad:
        return speaks_for(check, "moderate", "The number and the route both point abroad.")
    if not seen.region:
        return undecided(check, "Where it was posted is not known.")
    return speaks_against(check, "strong", "A number used abroad on a letter posted at home.")


def telegraph_or_fiscal(case: Case) -> CheckResult:
    """Was the stamp used on a telegram or a document?"""
    check, seen = case.check("telegraph_or_fiscal"), case.seen
    if seen.cancel == "telegraph":
        return speaks_against(
            check, "strong", "A telegraph mark: the stamp paid a telegram, no letter."
        )
    late_pen = seen.when and seen.when.earliest.isoformat() >= _FISCAL_PEN_FROM
    if seen.cancel == "pen" and late_pen:
        return speaks_against(check, "moderate", "A pen mark from 1881 on is mostly fiscal use.")
    if seen.cancel == "pen":
        return undecided(
            check, "Pen: look for initials or a date, and for a cleaned mark under the lamp."
        )
    if "pinhole" in seen.faults:
        return speaks_against(check, "moderate", "Pinholes: the stamp may have sat on a form.")
    if seen.cancel in _POSTAL:
        return speaks_for(check, "weak", "A cancel of the letter post.")
    return undecided(check)


def _told(check: CoverCheck, answer: CancelAnswer) -> CheckResult:
    """What the cancel facts answer, in the shape of a check."""
    more = {"source": answer.source, "confidence": answer.confidence}
    if answer.speaks == "against":
        # A record that is itself only remembered may caution; a published limit may condemn.
        return speaks_against(check, answer.strength, answer.text, **more)
    if answer.speaks == "for":
        return speaks_for(check, answer.strength, answer.text, **more)
    return undecided(check, answer.text)
