"""What came on top of the postage, or instead of it: registration, late fee, redirection, unpaid."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil

from counter.judge.cover import postage_scale
from counter.reference.postal import Postal
from counter.reference.postal_rates import ChargeRule, Fee, Rate
from counter.values.dates import read_date
from counter.values.postage import Postage, Unit

#: Handed in late, but the hour is not known.
HOUR_UNKNOWN = "late"
_REGISTRATION_BEGAN = "1841-01-06"
_UNION = "1875-07-01"
_SHILLING_ENDS = "1848-03-01"
_SHORT_RULES = ("underpaid-double-deficiency", "underpaid-two-tier")


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a sum: its name and its pence, or (None) the `doubt` why it is not established."""

    name: str
    pence: Fraction | None
    unit: Unit = "d"
    id: str = ""
    source: str = ""
    confidence: str = "low"
    doubt: str = ""
    note: str = ""

    def words(self) -> str:
        """letter 1d"""
        return (
            f"{self.name} {Postage(self.pence, self.unit).words()}"
            if self.pence is not None
            else self.name
        )


def postage_part(rate: Rate, name: str, pence: Fraction) -> Part:
    """The prepaid postage itself."""
    return Part(name, pence, rate.money, rate.id, rate.source, rate.confidence)


def unpaid_part(postal: Postal, rate: Rate, name: str, ounces: Fraction, day: date) -> Part:
    """What the addressee of a wholly unpaid item paid, in place of the prepaid postage."""
    if rate.service == "letter_second" and rate.money == "d":
        # The reference: unstamped mail went as second class, at double the deficiency.
        twice = postage_scale.by_weight(rate, ounces)
        pence = 2 * twice.pence if twice.pence is not None else None
        return Part(f"unpaid {name}", pence, "d", rate.id, rate.source, rate.confidence, twice.doubt)
    fixed = _fixed_charge(postal, rate.service, day)
    if fixed and fixed.amount is not None:
        pence = Fraction(fixed.amount)
        return Part(
            f"unpaid {name}", pence, "d", fixed.id, fixed.source, fixed.confidence, note=fixed.rule
        )
    price = postage_scale.unpaid(rate, ounces)
    if price.pence is None or price.doubt:
        return Part(f"unpaid {name}", None, doubt=price.doubt)
    rule = postal.charge_rules["unpaid-double"]
    source, sure = rate.source, rate.confidence
    if not rate.route and rule.first <= day.isoformat() <= rule.last:
        source, sure = rule.source, rule.confidence if rate.confidence == "high" else rate.confidence
    note = rate.unpaid_note or rule.rule
    return Part(f"unpaid {name}", price.pence, rate.money, rate.id, source, sure, note=note)


def _fixed_charge(postal: Postal, service: str, day: date) -> ChargeRule | None:
    iso = day.isoformat()
    rules = (rule for rule in postal.charge_rules.values() if rule.service == service)
    return next((rule for rule in rules if rule.amount and rule.first <= iso <= rule.last), None)


def registration_part(postal: Postal, day: date) -> Part:
    """The inland registration fee of the day."""
    if day.isoformat() < _REGISTRATION_BEGAN:
        return Part("registration fee", None, doubt="inland registration began on 6 January 1841")
    return _fee_part(postal, "registration", "registration fee", day)


def registration_abroad_part(postal: Postal, colony: bool, day: date) -> Part:
    """The fee for registering abroad, where it is known: the shilling of the 1840s, to colonies about
    1864, as at home from 1875."""
    if day.isoformat() >= _UNION:
        return registration_part(postal, day)
    if colony or day.isoformat() < _SHILLING_ENDS:
        return _fee_part(postal, "registration_abroad", "registration fee", day)
    return Part(
        "registration fee", None, doubt="the fee for registering abroad is not in the reference"
    )


def recorded_part(postal: Postal, day: date) -> Part:
    """The fee of Recorded Delivery."""
    return _fee_part(postal, "recorded_delivery", "recorded delivery fee", day)


def scottish_part(postal: Postal, day: date) -> Part | None:
    """The additional halfpenny of a letter carried in Scotland; None on days without it."""
    if _fee_of(postal, "scottish_halfpenny", day) is None:
        return None
    return _fee_part(postal, "scottish_halfpenny", "Scottish halfpenny", day)


def express_part(postal: Postal, miles: Fraction | None, day: date) -> Part:
    """The fee of an express messenger, by the miles he went."""
    fee = _fee_of(postal, "express_messenger", day)
    if fee is None or fee.first_mile is None or fee.further_mile is None:
        return Part("express fee", None, doubt="no express fee is recorded for that day")
    if miles is None:
        return Part("express fee", None, doubt=f"the miles must be known ({fee.basis})")
    pence = Fraction(fee.first_mile) + (max(ceil(miles), 1) - 1) * Fraction(fee.further_mile)
    return Part("express fee", pence, fee.money, fee.id, fee.source, fee.confidence, note=fee.basis)


def late_part(postal: Postal, overseas: bool, at: str, day: date, *, registered: bool = False) -> Part:
    """The late fee of the London chief office, by the hour where that is known ("19:10").

    A registered letter had one of its own while it is recorded.
    """
    service = _late_service(overseas)
    if registered and _fee_of(postal, "late_fee_registered", day):
        service = "late_fee_registered"
    part = _fee_part(postal, service, "late fee", day)
    fee = _fee_of(postal, service, day)
    if fee is None or not fee.hours or at == HOUR_UNKNOWN:
        return part
    for hours in fee.hours:
        if hours.after <= at < hours.upto or at == hours.upto == fee.hours[-1].upto:
            return Part(
                part.name, Fraction(hours.price), part.unit, part.id, part.source, part.confidence
            )
    between = f"{fee.hours[0].after} and {fee.hours[-1].upto}"
    return Part(
        "late fee", None, doubt=f"the late fee is known for letters handed in between {between}"
    )


def first_late_hour(postal: Postal, overseas: bool, day: date) -> str:
    """The hour of the lowest late fee, where the hours are known; else `HOUR_UNKNOWN`."""
    fee = _fee_of(postal, _late_service(overseas), day)
    return fee.hours[0].after if fee and fee.hours else HOUR_UNKNOWN


def _late_service(overseas: bool) -> str:
    return "late_fee_overseas_london" if overseas else "late_fee_london_chief_office"


def redirection_part(postal: Postal, prepaid: Part, times: int, day: date) -> Part:
    """Each redirection cost a further postage at the prepaid rate."""
    rule = postal.charge_rules["redirected"]
    if not rule.first <= day.isoformat() <= rule.last:
        ends = read_date(rule.last).words()
        return Part("redirection", None, doubt=f"a charge on redirection is known to {ends} only")
    name = "redirection" if times == 1 else f"{times} redirections"
    pence = times * prepaid.pence if prepaid.pence is not None else None
    return Part(name, pence, prepaid.unit, rule.id, rule.source, rule.confidence)


def deficiency(postal: Postal, due: Fraction, paid: Fraction, day: date) -> Fraction | None:
    """What was to be collected on an underpaid letter: double the missing amount, where that held."""
    return 2 * (due - paid) if paid < due and short_rule(postal, day) else None


def short_rule(postal: Postal, day: date) -> ChargeRule | None:
    """The rule on items that bore too little on a day: double the missing amount."""
    rules = (postal.charge_rules[name] for name in _SHORT_RULES)
    return next((rule for rule in rules if rule.first <= day.isoformat() <= rule.last), None)


def in_cash(postal: Postal, service: str, day: date) -> Fee | None:
    """The fee of a service on a day when it could still be paid in cash; None when it could not."""
    fee = _fee_of(postal, service, day)
    return fee if fee and day.isoformat() < fee.stamps_from else None


def _fee_of(postal: Postal, service: str, day: date) -> Fee | None:
    iso = day.isoformat()
    fees = (fee for fee in postal.fees.values() if fee.service == service)
    return next((fee for fee in fees if fee.first <= iso <= fee.last), None)


def _fee_part(postal: Postal, service: str, name: str, day: date) -> Part:
    fee = _fee_of(postal, service, day)
    if fee is None:
        return Part(name, None, doubt=f"no {name} is recorded for that day")
    if fee.flat is None:
        why = fee.note or fee.basis
        return Part(name, None, doubt=f"the {name} of that day is not established ({why.rstrip('.')})")
    doubt = postage_scale.resting(Fraction(fee.flat), fee)
    if not (fee.sure_from or day.isoformat()) <= day.isoformat() <= (fee.sure_upto or "9"):
        doubt = (
            f"{Postage(Fraction(fee.flat), fee.money).words()} is known for other years ({fee.note})"
        )
    if doubt:
        return Part(name, None, fee.money, fee.id, fee.source, fee.confidence, f"the {name} of {doubt}")
    note = fee.conditions
    return Part(name, Fraction(fee.flat), fee.money, fee.id, fee.source, fee.confidence, note=note)
