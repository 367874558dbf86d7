"""What did it cost to post? The exact rate for a day, weight or miles and sheets, and service.

A figure is given only where the reference establishes it; else the answer says why not and asks for
what is missing.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

from counter.judge.cover import fees, postage_scale
from counter.judge.cover.fees import Part
from counter.judge.cover.overseas import find_route
from counter.judge.cover.postage_scale import Price
from counter.judge.cover.question import DECIMAL_DAY, TWO_TIER_DAY, RateAnswer, RateQuestion
from counter.reference.postal import Postal
from counter.reference.postal_rates import Rate
from counter.values.counted import how_many
from counter.values.dates import When, on_day, read_date
from counter.values.postage import Postage, Unit, number_words

_UNIFORM_DAY = date(1839, 12, 5)  # from this day weight replaces miles and sheets
_HOME = frozenset({"inland", "home", "england", "scotland", "wales", "great britain"})
_FREE_STATE = date(1922, 12, 6)
_SCALES = ("high", "medium", "low")


def rate_for(postal: Postal, asked: RateQuestion) -> RateAnswer:
    """The rate asked for; never raises for what is merely unknown."""
    first = _on_day(postal, asked, asked.when.earliest)
    if asked.when.exact:
        return first
    last = _on_day(postal, asked, asked.when.latest)
    if (first.pence, first.unit, first.records) == (last.pence, last.unit, last.records):
        opening, span = on_day(asked.when.earliest).words(), asked.when.words()
        said = first.text.replace(f"on {opening}", f"in {span}").replace(
            f"for {opening}", f"for {span}"
        )
        return replace(first, text=said)
    return RateAnswer(
        None,
        first.unit,
        f"Not established: the rate changed in {asked.when.words()}. At its beginning: {first.text} "
        f"At its end: {last.text}",
        asks=("On which day was it posted?", *first.asks),
    )


def days_of_change(postal: Postal, when: When) -> tuple[date, ...]:
    """The first day of a date, and every later day of it on which some rate began; in order."""
    begun = {date.fromisoformat(rate.first) for rate in postal.rates.values()}
    later = sorted(day for day in begun if when.earliest < day <= when.latest)
    return (when.earliest, *later)


def _on_day(postal: Postal, asked: RateQuestion, day: date) -> RateAnswer:
    found, doubt = record_for(postal, asked, day)
    if found is None:
        return _unknown(asked, day, doubt)
    asks = _missing(found, asked)
    if asks:
        what = " and ".join(each for each, _ in asks)
        doubt = f"the {what} must be known ({postage_scale.scale_words(found)})"
        return _unknown(asked, day, doubt, found, tuple(question for _, question in asks))
    price = _price(found, asked)
    if price.pence is None or price.doubt:
        return _unknown(asked, day, price.doubt, found)
    prepaid = fees.postage_part(found, _name(postal, found, asked), price.pence)
    return _sum(postal, asked, day, found, _parts(postal, asked, day, found, prepaid), doubt)


def _parts(postal: Postal, asked: RateQuestion, day: date, rate: Rate, prepaid: Part) -> list[Part]:
    parts = [prepaid]
    if asked.unpaid and not rate.miles:  # by miles it cost the same, whoever paid
        ounces = asked.ounces if asked.ounces is not None else Fraction(0)
        parts = [fees.unpaid_part(postal, rate, prepaid.name, ounces, day)]
    if asked.service == "registered":
        parts.append(fees.registration_part(postal, day))
    if asked.redirected:
        parts.append(fees.redirection_part(postal, prepaid, asked.redirected, day))
    if asked.late_at:
        parts.append(fees.late_part(postal, bool(rate.route), asked.late_at, day))
    return parts


def record_for(postal: Postal, asked: RateQuestion, day: date) -> tuple[Rate | None, str]:
    """The one record that applies (or None), and what must be said with it (or why there is none)."""
    if asked.to and not _at_home(asked.to.strip().casefold(), day):
        return _overseas_record(postal, asked, day)
    service, said = inland_service(asked, day)
    for rate in postal.rates.values():
        if not rate.route and rate.service == service and rate.first <= day.isoformat() <= rate.last:
            return rate, said
    return None, _outside(postal, service, day)


def _at_home(to: str, day: date) -> bool:
    """Whether a country is inland: Ireland was to the day of the Irish Free State (common practice)."""
    return to in _HOME or (to == "ireland" and day < _FREE_STATE)


def inland_service(asked: RateQuestion, day: date) -> tuple[str, str]:
    """The reference's name of the service on that day, and what to say of the choice."""
    service = "letter" if asked.service == "registered" else asked.service
    if day >= TWO_TIER_DAY and service != "parcel":
        return _two_tier(service, asked.unpaid)
    if service == "letter" and day < _UNIFORM_DAY:
        return "general_post_single_sheet", ""
    if service == "letter" and day < date(1840, 1, 10) and asked.miles is not None and asked.miles <= 8:
        return "letter_upto_8_miles", ""
    names = {"printed": "printed_papers", "first": "letter_first", "second": "letter_second"}
    return names.get(service, service), ""


def _two_tier(service: str, unpaid: bool) -> tuple[str, str]:
    if unpaid:
        return "letter_second", "unstamped mail was treated as second class"
    if service in ("postcard", "printed"):
        return "letter_first", "cards and printed papers had no rate of their own, so by first class"
    return ("letter_second" if service == "second" else "letter_first"), ""


def _overseas_record(postal: Postal, asked: RateQuestion, day: date) -> tuple[Rate | None, str]:
    place = postal.place(asked.to)
    if place is None:
        return None, f"{asked.to} is not a place the reference knows; leave it out for inland mail"
    if place.region != "abroad":
        return record_for(
            postal, RateQuestion(asked.when, service=asked.service, miles=asked.miles), day
        )
    if asked.service not in ("letter", "postcard"):
        return None, f"{asked.service} mail abroad is not in the reference"
    route = find_route(postal, place, asked.service, day)
    return route.rate, route.note


def _outside(postal: Postal, service: str, day: date) -> str:
    known = [rate for rate in postal.rates.values() if rate.service == service and not rate.route]
    if not known:
        return "the reference has no such service"
    first, last = min(rate.first for rate in known), max(rate.last for rate in known)
    name = service.replace("_", " ")
    if first <= day.isoformat() <= last:
        return f"no {name} rate is recorded for that day"
    begins, ends = read_date(first).words(), read_date(last).words()
    return f"the reference has {name} rates from {begins} to {ends} only"


def _missing(rate: Rate, asked: RateQuestion) -> list[tuple[str, str]]:
    """What must still be known, as (a word, a question)."""
    if rate.miles:
        asks = [("miles", "How many miles did it go?")] if asked.miles is None else []
        if asked.sheets is None and (asked.ounces is None or asked.ounces < 1):
            asks.append(("number of sheets", "How many sheets of paper are there?"))
        elif asked.sheets is not None and asked.sheets > 3 and asked.ounces is None:
            asks.append(("weight", "What does it weigh in ounces?"))
        return asks
    if rate.steps and asked.ounces is None:
        return [("weight", "What does it weigh in ounces?")]
    return []


def _price(rate: Rate, asked: RateQuestion) -> Price:
    if rate.miles:
        miles = asked.miles if asked.miles is not None else Fraction(0)
        return postage_scale.by_miles(rate, miles, asked.sheets or 1, asked.ounces)
    if rate.is_gap:
        return Price(None, rate.note or "the figure for this period is a known gap")
    ounces = asked.ounces if asked.ounces is not None else Fraction(0)
    return postage_scale.by_weight(rate, ounces)


def _name(postal: Postal, rate: Rate, asked: RateQuestion) -> str:
    kind = "letter" if asked.service == "registered" else asked.service
    if rate.route:
        place = postal.place(asked.to)
        return f"{kind} to {place.name if place else asked.to}"
    classes = {"letter_first": "first-class letter", "letter_second": "second-class letter"}
    return classes.get(rate.service, "printed paper" if kind == "printed" else kind)


def _what(rate: Rate, asked: RateQuestion, parts: list[Part]) -> str:
    """A letter of ½ oz; a letter of 2 sheets going 120 miles."""
    name = "registered letter" if asked.service == "registered" else parts[0].name
    article = "an" if name.startswith("unpaid") else "a"
    size = []
    if rate.miles and asked.miles is not None:
        sheets = f"{how_many(asked.sheets, 'sheet')} " if asked.sheets else ""
        size = [f"of {sheets}going {number_words(asked.miles)} miles"]
    elif asked.ounces is not None and rate.flat is None:
        unit = "g" if rate.unit == "g" else "oz"
        size = [f"of {postage_scale.weight_words(asked.ounces / postage_scale.OUNCES[unit], unit)}"]
    return " ".join((article, name, *size))


def _sum(
    postal: Postal, asked: RateQuestion, day: date, rate: Rate, parts: list[Part], said: str
) -> RateAnswer:
    unknown = next((part for part in parts if part.pence is None), None)
    if unknown is not None:
        known = next((part for part in parts if part.pence is not None), parts[0])
        more = f"; {known.words()} alone is established" if known.pence is not None else ""
        answer = _unknown(asked, day, f"{unknown.doubt}{more}", rate)
        # Where a fee is what is in doubt, the answer is as sure as the fee's own source.
        return _resting_on(answer, unknown) if unknown.source else answer
    total = sum((part.pence for part in parts if part.pence is not None), Fraction(0))
    unit = rate.money
    told = tuple(part.words() for part in parts)
    amount = Postage(total, unit).words()
    breakdown = f" ({' + '.join(told)})" if len(told) > 1 else ""
    caveat = f"; {said}" if said else ""
    notes = "".join(f"; {part.note}" for part in parts if part.note)
    item = _what(rate, asked, parts)
    return RateAnswer(
        total,
        unit,
        f"{amount}{breakdown} for {item} on {on_day(day).words()}{caveat}{notes}.",
        rule=f"{postage_scale.scale_words(rate)}; {_period(rate)}",
        records=tuple(part.id for part in parts if part.id),
        source="; ".join(dict.fromkeys(part.source for part in parts)),
        confidence=max((part.confidence for part in parts), key=_SCALES.index),
        parts=told,
        also=_also(postal, asked, day, rate),
    )


def _resting_on(answer: RateAnswer, part: Part) -> RateAnswer:
    return replace(answer, source=part.source, confidence=part.confidence, records=(part.id,), rule="")


def _period(rate: Rate) -> str:
    return f"{read_date(rate.first).words()} to {read_date(rate.last).words()}"


def _also(postal: Postal, asked: RateQuestion, day: date, rate: Rate) -> tuple[str, ...]:
    """Other figures and limits a person would want to know beside the answer."""
    also = list(rate.extras)
    if rate.date_source == "memory":
        also.append(f"that this rate began on {read_date(rate.first).words()} is from memory")
    if rate.prior_conditions:
        also.append(rate.prior_conditions)
    if rate.service == "letter_first" and asked.service != "first" and asked.ounces is not None:
        second = RateQuestion(asked.when, asked.ounces, service="second")
        also.append(f"second class: {_on_day(postal, second, day).text}")
    return tuple(also)


def _unknown(
    asked: RateQuestion, day: date, doubt: str, rate: Rate | None = None, asks: tuple[str, ...] = ()
) -> RateAnswer:
    unit: Unit = "p" if day >= DECIMAL_DAY else "d"
    return RateAnswer(
        None,
        unit,
        f"Not established for {on_day(day).words()}: {doubt.rstrip('.')}.",
        rule=postage_scale.scale_words(rate) if rate else "",
        records=(rate.id,) if rate else (),
        source=rate.source if rate else "",
        confidence=rate.confidence if rate else "",
        asks=asks,
    )
