"""Checks by what was paid: the rate, the service, charge marks, high values."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

from counter.judge.cover.case import Case
from counter.judge.cover.fees import deficiency, first_late_hour, in_cash
from counter.judge.cover.postage_scale import scale_words
from counter.judge.cover.question import RateAnswer, RateQuestion
from counter.judge.cover.rate_records import record_for
from counter.judge.cover.rates import days_of_change, rate_for, rate_that_paid
from counter.judge.cover.result import CheckResult, not_asked, speaks_against, speaks_for, undecided
from counter.judge.cover.weights import has_open_scale, weights_paying
from counter.values.postage import Postage

_HIGH = Fraction(30)  # 2s 6d: from here a plain inland letter is no reason for so high a value
_LIGHTEST = Fraction(1, 100)  # ounces: lighter than any letter, so the first step of every scale
_COINS = {"d": "old pence", "p": "new pence"}
#: Marks of a letter without a stamp that belong to certain days alone.
_DAYS_OF = {
    "uniform_4d_ms": ("1839-12-05", "1840-01-09"),
    "addl_half": ("1813-01-01", "1839-12-04"),
}
_EXTRA_PAID = ("late_fee", "registered", "redirected")
_UNPAID = ("unpaid_2", "unpaid", "more_to_pay")


def rate_match(case: Case) -> CheckResult:
    """Does the franking equal a rate of that day?"""
    check, seen, asked = case.check("rate_match"), case.seen, case.question
    if seen.stampless or asked is None or seen.paid is None:
        return undecided(check, "The date and the whole franking are needed.")
    answer = rate_that_paid(case.postal, asked, seen.paid)
    if answer.pence is not None:
        return _compared(case, asked, answer)
    if asked.ounces is not None or asked.service == "registered" or asked.late_at:
        return _in_cash(case, asked) or undecided(check, answer.text)
    return _any_weight(case, asked)


def _compared(case: Case, asked: RateQuestion, answer: RateAnswer) -> CheckResult:
    check, paid = case.check("rate_match"), case.seen.paid
    assert paid is not None and answer.pence is not None
    more = {"source": answer.source.split("; ")[0], "confidence": answer.confidence}
    if paid.unit == answer.unit and paid.pence == answer.pence:
        return speaks_for(check, "moderate", f"{_franked(case)}: right. {answer.text}", **more)
    if not answer.decides:
        note = "; ".join(answer.also) or "the reference dates it only roughly"
        return undecided(check, f"{_franked(case)}; {answer.text} But {note}.", **more)
    if paid.unit != answer.unit:
        return speaks_against(check, "moderate", f"{_franked(case)}; {answer.text}", **more)
    if paid.pence > answer.pence and case.has(*_EXTRA_PAID):
        return undecided(
            check, f"{_franked(case)}; {answer.text} What the marks show may explain more."
        )
    if paid.pence > answer.pence:
        text = f"{_franked(case)} is more than the rate, and no mark explains it. {answer.text}"
        return speaks_against(check, "moderate", text, **more)
    return _in_cash(case, asked) or _too_little(case, asked, answer)


def _too_little(case: Case, asked: RateQuestion, answer: RateAnswer) -> CheckResult:
    check, paid = case.check("rate_match"), case.seen.paid
    assert paid is not None and answer.pence is not None
    more = {"source": answer.source.split("; ")[0], "confidence": answer.confidence}
    day = asked.when.earliest
    double = deficiency(case.postal, answer.pence, paid.pence, day)
    due = f", so {Postage(double, paid.unit).words()} was to be collected" if double else ""
    if case.has(*_UNPAID):
        text = f"{_franked(case)} is too little{due}; a charge mark shows it. {answer.text}"
        return speaks_for(check, "weak", text, **more)
    text = f"{_franked(case)} is too little{due}; no charge mark is noted. {answer.text}"
    return speaks_against(check, "moderate", text, **more)


def _in_cash(case: Case, asked: RateQuestion) -> CheckResult | None:
    """Early registered covers show the postage alone: the fee could be paid over the counter."""
    paid, fee = case.seen.paid, in_cash(case.postal, "registration", asked.when.earliest)
    if asked.service != "registered" or fee is None:
        return None
    letter = rate_for(case.postal, replace(asked, service="letter"))
    if paid is None or letter.pence is None or (paid.pence, paid.unit) != (letter.pence, letter.unit):
        return None
    text = f"{_franked(case)} pays the letter; the fee of registration could then be paid in cash."
    more = {"source": fee.source, "confidence": letter.confidence}
    return speaks_for(case.check("rate_match"), "moderate", f"{text} {letter.text}", **more)


def _any_weight(case: Case, asked: RateQuestion) -> CheckResult:
    """The weight is not known: any weight that fits is accepted."""
    check, paid = case.check("rate_match"), case.seen.paid
    assert paid is not None
    days = days_of_change(case.postal, asked.when)
    found = [weights_paying(case.postal, asked, day, paid) for day in days]
    if len(days) > 1 and any(each != found[0] for each in found):
        text = f"{_franked(case)}: postage changed in {asked.when.words()}; the day would tell."
        return undecided(check, text)
    spans, day = found[0], days[0]
    if spans and all(span.established for span in spans):
        fits = " or ".join(span.words() for span in spans)
        one = rate_for(case.postal, replace(asked, ounces=_LIGHTEST))
        more = {"source": one.source or check.source, "confidence": one.confidence or "medium"}
        return speaks_for(check, "moderate", f"{_franked(case)} pays a weight of {fits}.", **more)
    if spans or has_open_scale(case.postal, asked, day):
        return undecided(check, f"{_franked(case)}: the weights it may have paid are not established.")
    if case.has(*_UNPAID, *_EXTRA_PAID):
        return undecided(check, f"{_franked(case)} fits no weight alone; the marks may explain it.")
    return _no_weight(case, asked, day)


def _no_weight(case: Case, asked: RateQuestion, day: date) -> CheckResult:
    """No weight fits: the scale that says so stands beside it."""
    check, said = case.check("rate_match"), f"{_franked(case)} alone pays no weight"
    rate, _ = record_for(case.postal, replace(asked, ounces=None), day)
    if rate is None:
        return undecided(check, f"{said} that is recorded.")
    if rate.by_sheets:
        return undecided(check, "Postage then went by miles and sheets: both are needed.")
    if rate.money != (case.seen.paid.unit if case.seen.paid else rate.money):
        text = f"{said} {_within(asked)}: postage was then in {_COINS[rate.money]}."
    else:
        text = f"{said} {_within(asked)}: the rate was {scale_words(rate)}."
    return speaks_against(check, "moderate", text, source=rate.source, confidence=rate.confidence)


def _within(asked: RateQuestion) -> str:
    return f"{'on' if asked.when.exact else 'in'} {asked.when.words()}"


def _franked(case: Case) -> str:
    paid = case.seen.paid
    assert paid is not None
    said = "" if case.seen.franking else " (as far as the stamps are named)"
    return f"Franked {paid.words()}{said}"


def service_fits(case: Case) -> CheckResult:
    """Do the marks of the service agree with the franking?"""
    check, seen, asked = case.check("service_fits"), case.seen, case.question
    shown = [mark for mark in ("registered", "late_fee") if case.has(mark)]
    if not shown:
        return not_asked(check, "No mark of registration, late fee or express is noted.")
    if asked is None or seen.paid is None:
        return undecided(check, "The date and the whole franking are needed.")
    if "registered" in shown and in_cash(case.postal, "registration", asked.when.earliest):
        return undecided(
            check, "Registration was paid in cash at first: the stamps may show only postage."
        )
    if "late_fee" in shown and seen.region not in ("", "london"):
        return undecided(check, "The reference has the late fee of London only.")
    least = asked if asked.ounces is not None else replace(asked, ounces=_LIGHTEST)
    if least.late_at:
        overseas = bool(seen.to_abroad)
        least = replace(least, late_at=first_late_hour(case.postal, overseas, asked.when.earliest))
    answer = rate_for(case.postal, least)
    if answer.pence is None or answer.unit != seen.paid.unit:
        return undecided(check, answer.text)
    more = {"source": answer.source.split("; ")[-1], "confidence": answer.confidence}
    due = f"{Postage(answer.pence, answer.unit).words()} ({' + '.join(answer.parts)})"
    if seen.paid.pence < answer.pence:
        text = f"{_franked(case)} does not pay the service shown: at least {due} {_within(asked)}."
        return speaks_against(check, "moderate", text, **more)
    if asked.ounces is None and seen.paid.pence > answer.pence:
        return undecided(check, f"{_franked(case)} may pay the service shown; the weight would tell.")
    text = f"{_franked(case)} pays the service shown: {due} {_within(asked)}."
    return speaks_for(check, "moderate", text, **more)


def charge_marks(case: Case) -> CheckResult:
    """Do charge and prepayment marks agree with a stamp having paid?"""
    check, seen = case.check("charge_marks"), case.seen
    if seen.stampless:
        return _without_stamp(case)
    if case.has("uniform_4d_ms", "addl_half"):
        return speaks_against(check, "strong", "A charge of before the penny post beside an adhesive.")
    if case.has("paid_1", "paid"):
        return _cash_paid(case)
    if case.has(*_UNPAID):
        return _unpaid_beside_stamp(case)
    return undecided(check)


def _without_stamp(case: Case) -> CheckResult:
    """On a letter without a stamp the marks are held against the day alone."""
    check, when = case.check("charge_marks"), case.seen.when
    marks = [mark for mark in _DAYS_OF if case.has(mark)]
    if when is None or not marks:
        return undecided(check)
    first, last = _DAYS_OF[marks[0]]
    record = case.postal.marks[marks[0]]
    more = {"source": record.source, "confidence": record.confidence}
    if when.latest.isoformat() < first or when.earliest.isoformat() > last:
        return speaks_against(check, "strong", f"{record.meaning}; dated {when.words()}.", **more)
    return speaks_for(check, "weak", f"{record.meaning}; dated {when.words()}.", **more)


def _cash_paid(case: Case) -> CheckResult:
    check, when = case.check("charge_marks"), case.seen.when
    rule = case.postal.charge_rules["prepaid-cash"]
    if case.seen.to_abroad:
        return undecided(check, "PAID on a letter abroad may stand beside stamps.")
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


def _unpaid_beside_stamp(case: Case) -> CheckResult:
    check = case.check("charge_marks")
    if case.has("redirected"):
        return undecided(check, "The charge may be for the redirection.")
    if case.seen.ounces is not None and case.full_rate_paid:
        return speaks_against(check, "strong", "Charged as unpaid, yet the stamps pay the full rate.")
    if case.full_rate_paid is False:
        return speaks_for(check, "weak", "The charge agrees with too little having been prepaid.")
    text = "A charge on arrival beside a stamp: right only if the letter was too heavy for it."
    return speaks_against(check, "moderate", text)


def value_vs_service(case: Case) -> CheckResult:
    """Is so high a value on so ordinary a letter plausible?"""
    check, seen = case.check("value_vs_service"), case.seen
    if seen.value is None or seen.value.unit == "p" or seen.value.pence < _HIGH:
        return not_asked(check, "No high value is on it.")
    said = seen.value.words()
    if case.has("registered", "express") or seen.to_abroad or seen.service == "parcel":
        return speaks_for(check, "moderate", f"A {said} stamp has a service or distance to explain it.")
    if seen.ounces is not None and case.full_rate_paid and seen.paid == seen.value:
        return undecided(check)
    return speaks_against(
        check, "moderate", f"A {said} stamp on a plain inland letter, no service shown."
    )
