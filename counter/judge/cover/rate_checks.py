"""Checks by what was paid: the rate, the service, high values."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

from counter.judge.cover.case import Case
from counter.judge.cover.fees import deficiency, in_cash
from counter.judge.cover.postage_scale import scale_words
from counter.judge.cover.question import RateAnswer, RateQuestion
from counter.judge.cover.rate_records import record_for
from counter.judge.cover.rates import days_of_change, rate_for, rate_that_paid
from counter.judge.cover.result import (
    CheckResult,
    not_asked,
    speaks_against,
    speaks_for,
    tells_nothing,
    undecided,
)
from counter.judge.cover.weights import has_open_scale, weights_paying
from counter.values.postage import Postage

_HIGH = Fraction(30)  # 2s 6d: from here a plain inland letter is no reason for so high a value
#: Ounces: lighter than any letter, so the first step of every scale.
LIGHTEST = Fraction(1, 100)
_COINS = {"d": "old pence", "p": "new pence"}
_EXTRA_PAID = ("late_fee", "registered", "redirected", "express")


def rate_match(case: Case) -> CheckResult:
    """Does the franking equal a rate of that day?"""
    check, seen, asked = case.check("rate_match"), case.seen, case.question
    if seen.stampless or asked is None or seen.paid is None:
        return undecided(check, "The date, the whole franking and a way from home are needed.")
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
        return speaks_for(check, "moderate", f"{franked(case)}: right. {answer.text}", **more)
    if not answer.decides:
        note = "; ".join(answer.also) or "the reference dates it only roughly"
        return undecided(check, f"{franked(case)}; {answer.text} But {note}.", **more)
    if paid.unit != answer.unit:
        return speaks_against(check, "moderate", f"{franked(case)}; {answer.text}", **more)
    if case.has("redirected") and paid.pence == 2 * answer.pence:
        text = f"{franked(case)}: the rate, and the same again for the redirection. {answer.text}"
        return speaks_for(check, "moderate", text, **more)
    if paid.pence > answer.pence and case.has(*_EXTRA_PAID):
        return undecided(check, f"{franked(case)}; {answer.text} What the marks show may explain more.")
    if paid.pence > answer.pence:
        text = f"{franked(case)} is more than the rate, and no mark explains it. {answer.text}"
        return speaks_against(check, "moderate", text, **more)
    return _in_cash(case, asked) or _too_little(case, asked, answer)


def _too_little(case: Case, asked: RateQuestion, answer: RateAnswer) -> CheckResult:
    check, paid = case.check("rate_match"), case.seen.paid
    assert paid is not None and answer.pence is not None
    more = {"source": answer.source.split("; ")[0], "confidence": answer.confidence}
    double = deficiency(case.postal, answer.pence, paid.pence, asked.when.earliest)
    due = f", so {Postage(double, paid.unit).words()} was to be collected" if double else ""
    if case.charged:
        text = f"{franked(case)} is too little{due}; a charge is noted. {answer.text}"
        return tells_nothing(check, text, **more)
    text = f"{franked(case)} is too little{due}; no charge mark is noted. {answer.text}"
    return speaks_against(check, "moderate", text, **more)


def _in_cash(case: Case, asked: RateQuestion) -> CheckResult | None:
    """Early registered covers show the postage alone: the fee could be paid over the counter."""
    paid, fee = case.seen.paid, in_cash(case.postal, "registration", asked.when.earliest)
    if asked.service != "registered" or fee is None:
        return None
    letter = rate_for(case.postal, replace(asked, service="letter"))
    if paid is None or letter.pence is None or (paid.pence, paid.unit) != (letter.pence, letter.unit):
        return None
    text = f"{franked(case)} pays the letter; the fee of registration could then be paid in cash."
    more = {"source": fee.source, "confidence": letter.confidence}
    return speaks_for(case.check("rate_match"), "moderate", f"{text} {letter.text}", **more)


def _any_weight(case: Case, asked: RateQuestion) -> CheckResult:
    """The weight is not known: any weight that fits is accepted, and is no evidence of belonging."""
    check, paid = case.check("rate_match"), case.seen.paid
    assert paid is not None
    days = days_of_change(case.postal, asked.when)
    found = [weights_paying(case.postal, asked, day, paid) for day in days]
    if len(days) > 1 and any(each != found[0] for each in found):
        text = f"{franked(case)}: postage changed in {asked.when.words()}; the day would tell."
        return undecided(check, text)
    spans, day = found[0], days[0]
    if spans and all(span.established for span in spans):
        fits = " or ".join(span.words() for span in spans)
        one = rate_for(case.postal, replace(asked, ounces=LIGHTEST))
        more = {"source": one.source or check.source, "confidence": one.confidence or "medium"}
        text = f"{franked(case)} pays a weight of {fits}; the weight would tell."
        return undecided(check, text, **more)
    if spans or has_open_scale(case.postal, asked, day):
        return undecided(check, f"{franked(case)}: the weights it may have paid are not established.")
    if case.charged or case.has(*_EXTRA_PAID):
        return undecided(check, f"{franked(case)} fits no weight alone; the marks may explain it.")
    return _no_weight(case, asked, day)


def _no_weight(case: Case, asked: RateQuestion, day: date) -> CheckResult:
    """No weight fits: the scale that says so stands beside it."""
    check, said = case.check("rate_match"), f"{franked(case)} alone pays no weight"
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


def franked(case: Case) -> str:
    """What the letter is franked with, in words, each stamp of it named."""
    seen, paid = case.seen, case.seen.paid
    assert paid is not None
    if seen.franking or seen.value is None:
        return f"Franked {paid.words()}"
    parts = [(seen.count, seen.value), *((each.count, each.value) for each in seen.beside)]
    told = [
        f"{count} x {value.words()}" if count > 1 else value.words() for count, value in parts if value
    ]
    named = f"{' + '.join(told)}, " if len(parts) > 1 or seen.count > 1 else ""
    return f"Franked {paid.words()} ({named}as far as the stamps are named)"


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
    least = asked if asked.ounces is not None else replace(asked, ounces=LIGHTEST)
    answer = rate_for(case.postal, least)
    if answer.pence is None or answer.unit != seen.paid.unit:
        return undecided(check, answer.text)
    more = {"source": answer.source.split("; ")[-1], "confidence": answer.confidence}
    due = f"{Postage(answer.pence, answer.unit).words()} ({' + '.join(answer.parts)})"
    if seen.paid.pence < answer.pence:
        text = f"{franked(case)} does not pay the service shown: at least {due} {_within(asked)}."
        return speaks_against(check, "moderate", text, **more)
    if asked.ounces is None and seen.paid.pence > answer.pence:
        return undecided(check, f"{franked(case)} may pay the service shown; the weight would tell.")
    text = f"{franked(case)} pays the service shown: {due} {_within(asked)}."
    return speaks_for(check, "moderate", text, **more)


def value_vs_service(case: Case) -> CheckResult:
    """Is so high a value on so ordinary a letter plausible?"""
    check, seen = case.check("value_vs_service"), case.seen
    values = [each.value for each in seen.beside if each.value] + ([seen.value] if seen.value else [])
    highest = max(
        (each for each in values if each.unit == "d"), key=lambda each: each.pence, default=None
    )
    if highest is None or highest.pence < _HIGH:
        return not_asked(check, "No high value is on it.")
    said = highest.words()
    if case.has("registered", "express") or seen.to_abroad or seen.service == "parcel":
        return tells_nothing(check, f"A {said} stamp has a service or distance to explain it.")
    if seen.ounces is not None and case.full_rate_paid and seen.paid == seen.value:
        return undecided(check)
    return speaks_against(
        check, "moderate", f"A {said} stamp on a plain inland letter, no service shown."
    )
