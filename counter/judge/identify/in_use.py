"""How likely a date and a cancel are, of the years that a stamp was in use."""

from __future__ import annotations

from counter.judge.identify.variants import Variant, year_of
from counter.reference.stamps_error import CancelPeriod, ErrorModel


def life_of(variant: Variant, errors: ErrorModel) -> float:
    """The years in which a stamp was used, those after it was replaced counted as they fade away."""
    return variant.last - variant.first + errors.figures["use_halves_each_years"] / 0.693 + 0.5


def date_likelihood(variant: Variant, value: str, errors: ErrorModel) -> float | None:
    """P(used on this date | the stamp), per year of its life; a memory date is softened.

    A stamp that was never issued was not used on any date: only a slip puts one on it.
    """
    character = errors.characters["date"]
    slip = character.misread / character.others
    try:
        start, end = year_of(value), year_of(value, end=True)
    except ValueError:
        return None
    if _never_used(variant):
        return slip
    use = max(_use(variant, spot, errors) for spot in (start, (start + end) / 2, end))
    return (1 - character.misread) * use / life_of(variant, errors) + slip


def _never_used(variant: Variant) -> bool:
    return variant.characters.standing == "not_issued"


def _use(variant: Variant, spot: float, errors: ErrorModel) -> float:
    """How much a stamp was used at a time, 1 while current. A first day from memory cautions: a
    use before it is unlikely, not impossible."""
    grace = errors.figures["memory_date_years"] if variant.soft else 0.0
    if spot < variant.first and not variant.soft:
        return 0.0
    if spot < variant.first:
        near = spot >= variant.first - grace
        return errors.figures["before_memory_date"] * (1.0 if near else 0.1)
    after = spot - variant.last - grace
    if after <= 0:
        return 1.0
    return float(0.5 ** (after / errors.figures["use_halves_each_years"]))


def cancel_likelihood(variant: Variant, value: str, date: str, errors: ErrorModel) -> float | None:
    """P(cancelled so | the stamp, and the date if one was said); None when no years are known.

    Without a date it is the part of the stamp's life that fell in the cancel's years. With one the
    date has spoken already: a cancel of that date adds nothing, but where the year may be misread
    the cancel's own years still tell.
    """
    period = errors.cancel_periods.get(value)
    if period is None:
        return None
    character = errors.characters["cancel"]
    slip = character.misread / character.others
    if _never_used(variant):
        return slip
    alone = (1 - character.misread) * _within(variant, period, errors) + slip
    marginal = date_likelihood(variant, date, errors) if date else None
    if marginal is None:
        return alone
    year = errors.characters["date"]
    misread = year.misread / year.others
    then = (1 - character.misread) * _covers(period, date) + slip
    return ((marginal - misread) * then + misread * alone) / marginal


def _within(variant: Variant, period: CancelPeriod, errors: ErrorModel) -> float:
    """The part of a stamp's life that fell in the years of a cancel."""
    life = max(variant.last + errors.figures["use_halves_each_years"] - variant.first, 0.5)
    early, late = year_of(period.earliest), year_of(period.latest, end=True)
    within = min(late, variant.first + life) - max(early, variant.first)
    return max(within, 0.0) / life


def _covers(period: CancelPeriod, date: str) -> float:
    """1.0 when a date may fall in the years of a cancel, else 0.0."""
    early, late = year_of(period.earliest), year_of(period.latest, end=True)
    return float(early <= year_of(date, end=True) and year_of(date) <= late)
