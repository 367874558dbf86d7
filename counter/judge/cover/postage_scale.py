"""One rate record: what it makes a weight (or miles and sheets) cost, exactly, and how sure that is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor

from counter.reference.postal_rates import Fee, Rate, Step, unproved
from counter.values.postage import Postage, number_words

#: Ounces in each unit of weight; the gram by the international avoirdupois ounce of 28.349523125 g.
OUNCES = {
    "oz": Fraction(1),
    "third_oz": Fraction(1, 3),
    "lb": Fraction(16),
    "g": 1 / Fraction("28.349523125"),
}


@dataclass(frozen=True, slots=True)
class Price:
    """The record's figure in pence (None where it has none); `doubt` says why it is not established."""

    pence: Fraction | None
    doubt: str = ""


def by_weight(rate: Rate, ounces: Fraction) -> Price:
    """The prepaid price of a weight in ounces."""
    if rate.flat is not None:
        return Price(Fraction(rate.flat), resting(Fraction(rate.flat), rate))
    weight = ounces / OUNCES[rate.unit]
    if rate.max_weight is not None and weight > rate.max_weight:
        limit = weight_words(rate.max_weight, rate.unit)
        more = f" ({rate.limit_note})" if rate.limit_note else ""
        return Price(None, f"over {limit} it could not go by this service{more}")
    pence = _stepped(rate, weight)
    if rate.confirmed_upto is not None and weight > rate.confirmed_upto:
        limit = weight_words(rate.confirmed_upto, rate.unit)
        given = f"; {Postage(pence, rate.money).words()} is given but not proved" if pence else ""
        return Price(pence, f"the charge over {limit} is not established{given}")
    if pence is None:
        return Price(None, "the charge for this weight is not established")
    return Price(pence, resting(pence, rate))


def resting(pence: Fraction, on: Rate | Fee) -> str:
    """The doubt of a figure that its source does not establish: "12p rests on memory alone"."""
    why = unproved(on.source, on.confidence)
    return f"{Postage(pence, on.money).words()} rests on {why}" if why else ""


def by_miles(rate: Rate, miles: Fraction, sheets: int, ounces: Fraction | None) -> Price:
    """The price of a letter charged by distance and sheets (from an ounce up, by quarter ounces)."""
    single = next((Fraction(step.price) for step in rate.miles if miles <= step.upto), None)
    if single is None:
        single = Fraction(rate.over_miles or 0)
    return of_sheets(single, sheets, ounces)


def of_sheets(single: Fraction, sheets: int, ounces: Fraction | None) -> Price:
    """So many sheets at the price of one; an ounce paid as four, each quarter ounce reached above
    it as one more (Pearson Hill 1887: just under 2 oz sevenfold)."""
    if ounces is not None and ounces >= 1:
        return Price(single * (4 + floor((ounces - 1) * 4)))
    if sheets > 3 and ounces is None:
        return Price(None, "more than three sheets were charged by weight from an ounce up")
    if sheets > 3:
        return Price(None, "more than three sheets under an ounce are not in the scale")
    return Price(single * sheets)


def unpaid(rate: Rate, ounces: Fraction) -> Price:
    """What the addressee paid when nothing was prepaid."""
    prepaid = by_weight(rate, ounces)
    if prepaid.pence is None or prepaid.doubt:
        return prepaid
    if rate.unpaid_steps:
        return Price(_within(rate.unpaid_steps, ounces))
    if rate.unpaid_times is None:
        return Price(None, "the charge on unpaid mail is not established for this service")
    beyond = _beyond(rate, ounces)
    if rate.unpaid_then_price is not None and beyond:
        return Price(Fraction(rate.steps[-1].price) + beyond * Fraction(rate.unpaid_then_price))
    return Price(prepaid.pence * Fraction(rate.unpaid_times))


def _stepped(rate: Rate, weight: Fraction) -> Fraction | None:
    if rate.over is not None and weight > rate.over.above:
        return ceil(weight) * Fraction(rate.over.per_oz)
    within = _within(rate.steps, weight, under=rate.under)
    if within is not None or rate.then_price is None or not rate.steps:
        return within
    return Fraction(rate.steps[-1].price) + _beyond(rate, weight) * Fraction(rate.then_price)


def _within(steps: tuple[Step, ...], weight: Fraction, *, under: bool = False) -> Fraction | None:
    fitting = (step for step in steps if weight < step.upto or (weight == step.upto and not under))
    return next((Fraction(step.price) for step in fitting), None)


def _beyond(rate: Rate, weight: Fraction) -> int:
    """How many whole or begun further steps lie above the last named one."""
    if rate.then_every is None or not rate.steps or weight <= rate.steps[-1].upto:
        return 0
    return ceil((weight - Fraction(rate.steps[-1].upto)) / Fraction(rate.then_every))


def step_ends(rate: Rate) -> Iterator[Fraction]:
    """The heaviest weight of every step, lightest first, in the record's unit; may go on for ever."""
    end = Fraction(0)
    for step in rate.steps:
        end = Fraction(step.upto)
        yield end
    every = Fraction(1) if rate.over is not None else Fraction(rate.then_every or 0)
    while every:
        end += every
        yield end


def weight_words(weight: Decimal | Fraction, unit: str) -> str:
    """½ oz, 60 g; a weight turned into another unit is said to the tenth."""
    return f"{weight_number(weight, unit)} {'oz' if unit == 'third_oz' else unit}"


def weight_number(weight: Decimal | Fraction, unit: str) -> str:
    """The figure alone; thirds of an ounce are said in ounces: ⅓."""
    number = Fraction(weight) / 3 if unit == "third_oz" else Fraction(weight)
    return number_words(number) if number.denominator <= 1000 else f"{float(number):.1f}"


def scale_words(rate: Rate) -> str:
    """The record's whole scale in one line."""

    def price(pence: Decimal) -> str:
        return Postage(Fraction(pence), rate.money).words()

    if rate.flat is not None:
        return f"{price(rate.flat)} whatever the weight"
    if rate.miles:
        return f"by {rate.basis}"
    if rate.sheet is not None:
        return f"{price(rate.sheet)} for {rate.basis}"
    upto = "under" if rate.under else "up to"
    said = [f"{price(step.price)} {upto} {weight_words(step.upto, rate.unit)}" for step in rate.steps]
    if rate.then_every is not None and rate.then_price is not None:
        said.append(
            f"then {price(rate.then_price)} for each further {weight_words(rate.then_every, rate.unit)}"
        )
    if rate.over is not None:
        said.append(
            f"over {weight_words(rate.over.above, rate.unit)} {price(rate.over.per_oz)} "
            "for every ounce from the first"
        )
    return ", ".join(said) or "no figure known"
