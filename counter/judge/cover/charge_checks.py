"""Checks by the charge: what was collected beside stamps that fell short, or of a letter without any."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from counter.judge.cover.case import Case
from counter.judge.cover.fees import deficiency
from counter.judge.cover.question import RateAnswer, RateQuestion
from counter.judge.cover.rate_checks import LIGHTEST, franked
from counter.judge.cover.rates import rate_for
from counter.judge.cover.result import CheckResult, speaks_against, speaks_for, tells_nothing, undecided
from counter.values.postage import Postage, read_postage

#: Marks of a letter without a stamp that belong to certain days alone.
_HALFPENNY_DAYS = ("1813-01-01", "1839-12-04")
#: What a mark that is a figure too shows.
_FIGURES = {"unpaid_2": "2d", "paid_1": "1d", "uniform_4d_ms": "4d"}
_PAID = ("paid", "paid_1")
_UNPAID = ("unpaid_2", "unpaid", "more_to_pay")
#: Ounces at which a letter of unknown weight is tried: the ends of every step that was ordinary.
_TRIED = tuple(Fraction(number, 2) for number in (1, 2, 3, 4, 6, 8, 12, 16, 32))


def charge_marks(case: Case) -> CheckResult:
    """Do charge and prepayment marks agree with the day, and with what the stamps paid?"""
    check, seen = case.check("charge_marks"), case.seen
    if seen.stampless:
        return _without_stamp(case)
    if case.has("addl_half"):
        return speaks_against(check, "strong", "A charge of before the penny post beside an adhesive.")
    if case.has(*_PAID) and not seen.asked_for:
        return _cash_paid(case)
    if case.charged:
        return _beside_stamp(case)
    return undecided(check)


def _beside_stamp(case: Case) -> CheckResult:
    check, seen, paid = case.check("charge_marks"), case.seen, case.seen.paid
    if case.has("redirected"):
        return undecided(check, "The charge may be for the redirection.")
    answer = rate_for(case.postal, case.question) if case.question else None
    unweighed = seen.ounces is None and seen.service == "letter" and not case.has("more_to_pay")
    if unweighed and case.has("unpaid_2", "unpaid"):
        text = "A charge on arrival beside a stamp: right only if the letter was too heavy for it."
        return speaks_against(check, "moderate", text)
    if answer is None or answer.pence is None or paid is None or paid.unit != answer.unit:
        return undecided(check, "A charge beside stamps: the weight, date and franking would tell.")
    missing = answer.pence - paid.pence
    if missing <= 0:
        text = f"Charged, yet the stamps pay the full rate. {answer.text}"
        return speaks_against(check, "strong", text, **_from(answer))
    return _answering(case, answer, missing)


def _answering(case: Case, answer: RateAnswer, missing: Fraction) -> CheckResult:
    """Whether the charge is what such a shortage came to."""
    check, seen, asked = case.check("charge_marks"), case.seen, case.question
    assert asked is not None and seen.paid is not None
    double = deficiency(case.postal, answer.pence or Fraction(0), seen.paid.pence, asked.when.earliest)
    charge = _figure(case)
    short = f"{franked(case)} is {Postage(missing, answer.unit).words()} short of {answer.text[:-1]}"
    if charge is None:
        return tells_nothing(check, f"{short}; a charge is noted, its figure is not.", **_from(answer))
    if double is None:
        return undecided(check, f"{short}; what was charged for that is not established.")
    said = Postage(double, answer.unit).words()
    if charge.pence == double:
        text = f"{short}; double is {said}, as charged: the charge answers the franking."
        return speaks_for(check, "moderate", text, **_from(answer))
    text = f"{short}; double is {said}, but {charge.words()} is charged."
    return speaks_against(check, "moderate", text, **_from(answer))


def _cash_paid(case: Case) -> CheckResult:
    check, when = case.check("charge_marks"), case.seen.when
    rule = case.postal.charge_rules["prepaid-cash"]
    if case.seen.to_abroad:
        return undecided(check, "PAID on a letter abroad may stand beside stamps.")
    if case.has("registered"):
        return undecided(check, "PAID on a registered letter may be for the fee.")
    if when and when.earliest.isoformat() > rule.last:
        return undecided(check, "PAID after the cash years: ask what it was struck for.")
    mark = case.postal.marks["paid_1"]
    more = {"source": mark.source, "confidence": mark.confidence}
    if case.has("paid_1") or case.seen.mark_colour == "red":
        return speaks_against(
            check, "strong", f"{mark.meaning}: nothing was left for a stamp to pay.", **more
        )
    text = "PAID beside an adhesive: if it is red, the letter was prepaid in cash."
    return speaks_against(check, "moderate", text, **more)


def _without_stamp(case: Case) -> CheckResult:
    """A letter without a stamp is held to the rate by its charge."""
    check, when, charge = case.check("charge_marks"), case.seen.when, _figure(case)
    if case.has("addl_half") and when:
        return _halfpenny(case)
    if when is None or charge is None:
        return undecided(check, "The date and the figure charged or paid are needed.")
    asked = [each for each in _questions(case) if each]
    if not asked:
        return undecided(check, "The rate of a letter from abroad is not in the reference.")
    answers = [rate_for(case.postal, each) for each in asked]
    right = next((each for each in answers if _is(charge, each)), None)
    if right:
        return speaks_for(
            check, "moderate", f"Charged {charge.words()}: right. {right.text}", **_from(right)
        )
    known = [each for each in answers if each.pence is not None]
    if not known:
        return _any_weight(case, charge, asked)
    told = " ".join(dict.fromkeys(each.text for each in known))
    text = f"Charged {charge.words()}, which is no rate of such a letter. {told}"
    return speaks_against(check, "moderate", text, **_from(known[0]))


def _halfpenny(case: Case) -> CheckResult:
    check, when, record = case.check("charge_marks"), case.seen.when, case.postal.marks["addl_half"]
    assert when is not None
    first, last = _HALFPENNY_DAYS
    more = {"source": record.source, "confidence": record.confidence}
    text = f"{record.meaning}; dated {when.words()}."
    if when.latest.isoformat() < first or when.earliest.isoformat() > last:
        return speaks_against(check, "strong", text, **more)
    return speaks_for(check, "moderate", text, **more)


def _questions(case: Case) -> Iterator[RateQuestion | None]:
    """The letter as prepaid, as unpaid, or both where no mark tells which."""
    asked = case.question
    paid, unpaid = case.has(*_PAID), case.has(*_UNPAID) or case.seen.due is not None
    if asked is None:
        return
    if paid or not unpaid:
        yield replace(asked, unpaid=False)
    if not paid:
        yield replace(asked, unpaid=True)


def _any_weight(case: Case, charge: Postage, asked: list[RateQuestion]) -> CheckResult:
    """The weight is not known: whether any ordinary one would have cost so much."""
    check = case.check("charge_marks")
    if any(each.ounces is not None or each.miles is not None for each in asked):
        return undecided(check, rate_for(case.postal, asked[0]).text)
    tried = [
        (ounces, rate_for(case.postal, replace(each, ounces=ounces)))
        for each in asked
        for ounces in (LIGHTEST, *_TRIED)
    ]
    fits, single = next(((each, ounces) for ounces, each in tried if _is(charge, each)), (None, None))
    if fits and single == LIGHTEST:
        text = f"Charged {charge.words()}: right for a single letter. {fits.text}"
        return speaks_for(check, "moderate", text.replace("of 0.01 oz ", ""), **_from(fits))
    if fits:
        text = f"{charge.words()} was charged on some letters of that day; the weight would tell."
        return undecided(check, f"{text} {fits.text}", **_from(fits))
    known = [each for _, each in tried if each.pence is not None]
    if len(known) < len(tried):
        return undecided(check, rate_for(case.postal, asked[0]).text)
    text = f"{charge.words()} was charged on no ordinary weight of that day: {known[0].rule}."
    return speaks_against(check, "moderate", text, **_from(known[0]))


def _figure(case: Case) -> Postage | None:
    """What is charged or paid in figures: noted, on a label, or the figure of a mark."""
    if case.seen.asked_for:
        return case.seen.asked_for
    said = next((_FIGURES[mark] for mark in case.seen.marks if mark in _FIGURES), "")
    return read_postage(said) if said else None


def _is(charge: Postage, answer: RateAnswer) -> bool:
    return answer.pence is not None and (answer.pence, answer.unit) == (charge.pence, charge.unit)


def _from(answer: RateAnswer) -> dict[str, str]:
    return {"source": answer.source.split("; ")[0], "confidence": answer.confidence}
