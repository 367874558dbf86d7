"""What did it cost to post? The exact rate for a day, weight or miles and sheets, and service.

A figure is given only where the reference establishes it; else the answer says why not and asks for
what is missing. Where a letter abroad could go several ways each has its answer.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import lru_cache

from counter.judge.cover import fees, postage_scale
from counter.judge.cover.fees import Part
from counter.judge.cover.postage_scale import Price
from counter.judge.cover.question import DECIMAL_DAY, RateAnswer, RateQuestion
from counter.judge.cover.rate_records import AS_LETTER, record_for, records_for
from counter.reference.postal import Postal
from counter.reference.postal_rates import Rate
from counter.values.dates import When, on_day, read_date
from counter.values.postage import Postage, Unit, number_words
from counter.values.visible import how_many

_SCALES = ("high", "medium", "low")
_COLONIES = ("empire", "australasia")
_KINDS = {"printed": "printed paper", "soldier": "soldier's letter", "officer": "officer's letter"}
_CLASSES = {
    "letter_first": "first-class letter",
    "letter_second": "second-class letter",
    "twopenny_post": "letter by the London Twopenny Post",
    "twopenny_post_country": "letter by the London Twopenny Post, country area",
    "local_penny_post": "letter by a local penny post",
    "ship_letter": "ship letter",
}


@lru_cache(maxsize=2048)
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


def rate_that_paid(postal: Postal, asked: RateQuestion, paid: Postage) -> RateAnswer:
    """The rate asked for; of several ways the one that these stamps paid, where one is that."""
    answer = rate_for(postal, asked)
    right = [each for each in answer.choices if (each.pence, each.unit) == (paid.pence, paid.unit)]
    return replace(right[0], decides=False) if right else answer


def days_of_change(postal: Postal, when: When) -> tuple[date, ...]:
    """The first day of a date, and every later day of it on which some rate began; in order."""
    begun = {date.fromisoformat(rate.first) for rate in postal.rates.values()}
    later = sorted(day for day in begun if when.earliest < day <= when.latest)
    return (when.earliest, *later)


def _on_day(postal: Postal, asked: RateQuestion, day: date) -> RateAnswer:
    found = records_for(postal, asked, day)
    if not found.rates:
        return _unknown(asked, day, found.note)
    answers = [_by_record(postal, asked, day, rate, found.note) for rate in found.rates]
    return answers[0] if len(answers) == 1 else _of_several(asked, day, found.rates, answers)


def _of_several(
    asked: RateQuestion, day: date, rates: tuple[Rate, ...], answers: list[RateAnswer]
) -> RateAnswer:
    """One answer where the ways agree; else each stands beside the other and the way is asked."""
    known = tuple(each for each in answers if each.established)
    if len(known) == len(answers) and len({each.pence for each in known}) == 1:
        return known[0]
    ways = "; ".join(
        f"{rate.way or rate.to}: {each.text.removesuffix('.')}"
        for rate, each in zip(rates, answers, strict=True)
    )
    answer = _unknown(asked, day, f"it depends on the way the letter went ({ways})", rates[0])
    asks = dict.fromkeys(question for each in answers for question in each.asks)
    return replace(
        answer,
        records=tuple(rate.id for rate in rates),
        source="; ".join(dict.fromkeys(rate.source for rate in rates)),
        rule="",
        asks=("By which way did it go?", *asks),
        choices=known,
    )


def _by_record(postal: Postal, asked: RateQuestion, day: date, rate: Rate, said: str) -> RateAnswer:
    if rate.part:
        doubt = f"only a part is recorded: {postage_scale.scale_words(rate)}, {rate.part}"
        return _unknown(asked, day, doubt, rate)
    asks = _missing(rate, asked)
    if asks:
        what = " and ".join(each for each, _ in asks)
        doubt = f"the {what} must be known ({postage_scale.scale_words(rate)})"
        return _unknown(asked, day, doubt, rate, tuple(question for _, question in asks))
    price = _price(rate, asked, day)
    if price.pence is None or price.doubt:
        return _unknown(asked, day, price.doubt, rate)
    prepaid = fees.postage_part(rate, _name(postal, rate, asked), price.pence)
    return _sum(postal, asked, day, rate, _parts(postal, asked, day, rate, prepaid), said)


def _parts(postal: Postal, asked: RateQuestion, day: date, rate: Rate, prepaid: Part) -> list[Part]:
    parts = [prepaid]
    if rate.inland_beside:
        parts.append(_inland_beside(postal, asked, day))
    if rate.miles and (half := fees.scottish_part(postal, day)) and _in_scotland(postal, asked):
        parts.append(half)
    if asked.unpaid and not rate.by_sheets:  # by miles it cost the same, whoever paid
        ounces = asked.ounces if asked.ounces is not None else Fraction(0)
        parts = [fees.unpaid_part(postal, rate, prepaid.name, ounces, day)]
    parts += _service_parts(postal, asked, day, rate)
    if asked.redirected:
        parts.append(fees.redirection_part(postal, prepaid, asked.redirected, day))
    return parts


def _service_parts(postal: Postal, asked: RateQuestion, day: date, rate: Rate) -> list[Part]:
    parts = []
    registered = asked.service == "registered"
    if registered and rate.route:
        place = postal.place(asked.to)
        colony = place is not None and place.route in _COLONIES
        parts.append(fees.registration_abroad_part(postal, colony, day))
    elif registered:
        parts.append(fees.registration_part(postal, day))
    if asked.service == "express":
        parts.append(fees.express_part(postal, asked.miles, day))
    if asked.service == "recorded":
        parts.append(fees.recorded_part(postal, day))
    if asked.late_at:
        part = fees.late_part(postal, bool(rate.route), asked.late_at, day, registered=registered)
        parts.append(part)
    return parts


def _in_scotland(postal: Postal, asked: RateQuestion) -> bool:
    place = postal.place(asked.to)
    return (
        asked.scotland
        or asked.to.casefold() == "scotland"
        or (place is not None and place.region == "scotland")
    )


def _inland_beside(postal: Postal, asked: RateQuestion, day: date) -> Part:
    rate, doubt = record_for(postal, replace(asked, to="", via=""), day)
    if rate is None or asked.miles is None:
        return Part("inland postage", None, doubt=doubt or "the miles to London must be known")
    price = postage_scale.by_miles(rate, asked.miles, asked.sheets or 1, asked.ounces)
    return Part("inland postage", price.pence, "d", rate.id, rate.source, rate.confidence, price.doubt)


def _missing(rate: Rate, asked: RateQuestion) -> list[tuple[str, str]]:
    """What must still be known, as (a word, a question)."""
    if rate.by_sheets:
        asks = []
        if (rate.miles or rate.inland_beside) and asked.miles is None:
            asks.append(("miles", "How many miles did it go?"))
        if asked.sheets is None and (asked.ounces is None or asked.ounces < 1):
            asks.append(("number of sheets", "How many sheets of paper are there?"))
        elif asked.sheets is not None and asked.sheets > 3 and asked.ounces is None:
            asks.append(("weight", "What does it weigh in ounces?"))
        return asks
    weighed = rate.steps or (asked.unpaid and rate.unpaid_steps)
    if weighed and asked.ounces is None:
        return [("weight", "What does it weigh in ounces?")]
    return []


def _price(rate: Rate, asked: RateQuestion, day: date) -> Price:
    price = _figure(rate, asked)
    if price.pence is None or price.doubt or rate.sure_on(day.isoformat()):
        return price
    amount = Postage(price.pence, rate.money).words()
    return Price(price.pence, f"{amount} is given, but not to the day ({rate.date_note})")


def _figure(rate: Rate, asked: RateQuestion) -> Price:
    if rate.sheet is not None:
        return postage_scale.of_sheets(Fraction(rate.sheet), asked.sheets or 1, asked.ounces)
    if rate.miles:
        miles = asked.miles if asked.miles is not None else Fraction(0)
        return postage_scale.by_miles(rate, miles, asked.sheets or 1, asked.ounces)
    if rate.is_gap:
        return Price(None, rate.note or "the figure for this period is a known gap")
    ounces = asked.ounces if asked.ounces is not None else Fraction(0)
    return postage_scale.by_weight(rate, ounces)


def _name(postal: Postal, rate: Rate, asked: RateQuestion) -> str:
    kind = "letter" if asked.service in AS_LETTER else _KINDS.get(asked.service, asked.service)
    if rate.route and asked.to:
        place = postal.place(asked.to)
        way = f", {rate.way}" if rate.way else ""
        return f"{kind} to {place.name if place else asked.to}{way}"
    return _CLASSES.get(rate.service, kind)


def _what(rate: Rate, asked: RateQuestion, parts: list[Part]) -> str:
    """A letter of ½ oz; a letter of 2 sheets going 120 miles."""
    name = "registered letter" if asked.service == "registered" else parts[0].name
    article = "an" if name.startswith(("unpaid", "officer")) else "a"
    size = []
    sheets = how_many(asked.sheets, "sheet") if asked.sheets else ""
    if rate.miles and asked.miles is not None:
        size = [f"of {sheets} going {number_words(asked.miles)} miles".replace("of  ", "")]
    elif rate.by_sheets and sheets:
        size = [f"of {sheets}"]
    elif asked.ounces is not None and rate.flat is None:
        unit = "g" if rate.unit == "g" else "oz"
        weight = postage_scale.weight_words(asked.ounces / postage_scale.OUNCES[unit], unit)
        size = [f"of {weight}"]
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
        decides=not rate.never_against,
    )


def _resting_on(answer: RateAnswer, part: Part) -> RateAnswer:
    return replace(answer, source=part.source, confidence=part.confidence, records=(part.id,), rule="")


def _period(rate: Rate) -> str:
    return f"{read_date(rate.first).words()} to {read_date(rate.last).words()}"


def _also(postal: Postal, asked: RateQuestion, day: date, rate: Rate) -> tuple[str, ...]:
    """Other figures and limits a person would want to know beside the answer."""
    also = list(rate.extras)
    if rate.date_note:
        also.append(rate.date_note)
    if rate.date_source == "memory":
        also.append(f"that this rate began on {read_date(rate.first).words()} has no source")
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
