"""Records of the trade's terms: multiples, covers, margins, faults."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade and what it means; `id` is the short form kept with an item."""

    id: str
    term: str
    definition: str
    confidence: str
    source: str
    also_source: str = ""


@dataclass(frozen=True, slots=True)
class GradedTerm:
    """A state of margins (best first) or a fault (mildest first).

    `effect_low` and `effect_high` are fractions of the price of a four-margin (a sound) example.
    """

    id: str
    order: int
    term: str
    definition: str
    effect_low: Decimal
    effect_high: Decimal
    effect_source: str
    confidence: str
    source: str
    seen_by: str = ""
    also_source: str = ""


@dataclass(frozen=True, slots=True)
class PostTown:
    """A place by its usual name: where it lies, for the cancels it may have and the rate to it.

    `region` is london, england_wales, scotland, ireland or abroad. For a place abroad `route` names
    its rates (france, usa, union, australasia, empire or world); `penny_from` (whole or partial) is
    when the Imperial Penny Post took it in and `penny_source` what says so.
    """

    id: str
    name: str
    region: str
    source: str
    also: tuple[str, ...] = ()
    route: str = ""
    penny_from: str = ""
    penny_source: str = ""
