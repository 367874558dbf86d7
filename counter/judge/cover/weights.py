"""Which weights would explain a franking: the weight of an old letter is rarely known."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from functools import lru_cache

from counter.judge.cover import postage_scale
from counter.judge.cover.question import RateQuestion
from counter.judge.cover.rate_records import records_for
from counter.reference.postal import Postal
from counter.reference.postal_rates import Rate, unproved
from counter.values.postage import Postage

_HEAVIEST = Fraction(80)  # ounces: 5 lb, far above any letter; ends scales that go on for ever


@dataclass(frozen=True, slots=True)
class WeightSpan:
    """Over `over` and up to `upto` (in `unit`) the postage fits; `upto` None: whatever the weight."""

    over: Fraction
    upto: Fraction | None
    unit: str
    established: bool = True

    def words(self) -> str:
        """over ½ oz to 1 oz"""
        if self.upto is None:
            return f"any weight{'' if self.established else ' (not proved)'}"
        low = f"over {postage_scale.weight_number(self.over, self.unit)} to " if self.over else "up to "
        doubt = "" if self.established else " (not proved)"
        return f"{low}{postage_scale.weight_words(self.upto, self.unit)}{doubt}"


def weights_paying(
    postal: Postal, asked: RateQuestion, day: date, paid: Postage
) -> tuple[WeightSpan, ...]:
    """The weights that this postage alone would have paid on a day; empty when there is none."""
    rates = records_for(postal, replace(asked, ounces=None), day).rates
    iso = day.isoformat()
    return tuple(dict.fromkeys(span for rate in rates for span in _of_rate(rate, paid, iso)))


def _of_rate(rate: Rate, paid: Postage, iso: str) -> tuple[WeightSpan, ...]:
    if rate.money != paid.unit or rate.by_sheets or rate.part:
        return ()
    sure = rate.sure_on(iso)
    if rate.flat is not None:
        proved = sure and not postage_scale.resting(paid.pence, rate)
        span = WeightSpan(Fraction(0), None, rate.unit, established=proved)
        return (span,) if rate.flat == paid.pence else ()
    return tuple(
        replace(span, established=span.established and sure) for span in _spans(rate, paid.pence)
    )


def has_open_scale(postal: Postal, asked: RateQuestion, day: date) -> bool:
    """True when heavier weights than the reference proves might explain a franking."""
    rates = records_for(postal, replace(asked, ounces=None), day).rates
    return not rates or any(_is_open(rate, day.isoformat()) for rate in rates)


def _is_open(rate: Rate, iso: str) -> bool:
    known = rate.confirmed_upto is None and rate.sure_on(iso) and not rate.never_against
    if rate.is_gap or rate.part or not known:
        return True
    return bool(unproved(rate.source, rate.confidence))


def _spans(rate: Rate, pence: Fraction) -> tuple[WeightSpan, ...]:
    return _joined([span for span, price in _priced(rate) if price == pence])


@lru_cache(maxsize=512)
def _priced(rate: Rate) -> tuple[tuple[WeightSpan, Fraction | None], ...]:
    """Every step of a scale up to the heaviest letter, with its price."""
    found: list[tuple[WeightSpan, Fraction | None]] = []
    over = Fraction(0)
    for end in _ends(rate):
        # within a step the price is one: half-way between its ends stands for all of it
        price = postage_scale.by_weight(rate, (over + end) / 2 * postage_scale.OUNCES[rate.unit])
        found.append((WeightSpan(over, end, rate.unit, not price.doubt), price.pence))
        over = end
    return tuple(found)


def _ends(rate: Rate) -> Iterator[Fraction]:
    """Where a step ends, or what is proved of it."""
    proved = Fraction(rate.confirmed_upto or 0)
    over = Fraction(0)
    for end in postage_scale.step_ends(rate):
        if end * postage_scale.OUNCES[rate.unit] > _HEAVIEST:
            return
        if over < proved < end:
            yield proved
        yield end
        over = end


def _joined(spans: list[WeightSpan]) -> tuple[WeightSpan, ...]:
    joined: list[WeightSpan] = []
    for span in spans:
        last = joined[-1] if joined else None
        if last and last.upto == span.over and last.established == span.established:
            joined[-1] = replace(last, upto=span.upto)
        else:
            joined.append(span)
    return tuple(joined)
