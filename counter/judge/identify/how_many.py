"""How likely each stamp is before anything is seen: by how many of it there were to be had."""

from __future__ import annotations

from collections.abc import Sequence

from counter.judge.identify.in_use import life_of
from counter.judge.identify.variants import Variant
from counter.reference.stamps_error import ErrorModel


def priors(variants: Sequence[Variant], errors: ErrorModel) -> tuple[float, ...]:
    """The share of each stamp, in their order; what is left to 1 is a stamp that is none of them.

    A stamp counts by the years it was sold (the very years that a date is spread over, so that a
    date inside two lives does not favour the shorter), by its printing where that is known and small,
    by the standing of its issue and by what lies on the table this tool is used at.
    """
    weights = [_weight(each, errors) for each in variants]
    whole = sum(weights) / (1 - errors.figures["none_of_these"])
    return tuple(weight / whole for weight in weights)


def _weight(variant: Variant, errors: ErrorModel) -> float:
    weight = errors.standings[variant.characters.standing].weight
    weight *= _on_the_table(variant, errors) * _years(variant, errors)
    known = errors.how_many.get(variant.issue.id)
    return weight * known.weight if known else weight


def _years(variant: Variant, errors: ErrorModel) -> float:
    """The years sold, or as many as would have used up a printing known to be small."""
    years = min(life_of(variant, errors), errors.figures["most_years"])
    known = errors.how_many.get(variant.issue.id)
    if known and known.printed:
        years = min(years, known.printed / errors.figures["printed_a_year"])
    return years


def _on_the_table(variant: Variant, errors: ErrorModel) -> float:
    told = variant.characters
    if told.processes == ("line_engraved",):
        return errors.figures["line_engraved_weight"]
    return 1.0 if told.reigns == ("victoria",) else errors.figures["later_reigns_weight"]
