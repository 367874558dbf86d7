"""The question of what it cost to post, and the shape of its answer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal, get_args

from counter.values.dates import When
from counter.values.postage import Unit

Service = Literal[
    "letter",
    "first",
    "second",
    "printed",
    "postcard",
    "registered",
    "parcel",
    "newspaper",
    "sample",
    "express",
    "recorded",
    "soldier",
    "officer",
    "local",
    "twopenny",
    "twopenny-country",
    "ship",
]
SERVICES: tuple[Service, ...] = get_args(Service)

#: From this day every amount is in new pence.
DECIMAL_DAY = date(1971, 2, 15)
#: From this day letters went first or second class and cards and papers had no rate of their own.
TWO_TIER_DAY = date(1968, 9, 16)


@dataclass(frozen=True, slots=True)
class RateQuestion:
    """What is known of an item's journey; None means not known.

    `via` is the way it went abroad, in the words on it; `scotland` that it was carried in Scotland
    (the halfpenny of 1813-39). `late_at` is the hour of handing in at the London chief office.
    """

    when: When
    ounces: Fraction | None = None
    sheets: int | None = None
    miles: Fraction | None = None
    service: Service = "letter"
    unpaid: bool = False
    to: str = ""
    via: str = ""
    scotland: bool = False
    redirected: int = 0
    late_at: str = ""  # "19:10"; "late" if not known


@dataclass(frozen=True, slots=True)
class RateAnswer:
    """The rate: `pence` of `unit` (None when not established) with what it rests on.

    `rule` is the scale in words, `records` the ids used, `source` their sources, `confidence` that
    of the weakest part; `parts` tell a sum ("letter 1d", "registration 4d"); `also` other figures
    worth knowing. `decides` is false where a figure may explain a franking and never speak against
    one. Where several ways were open `choices` has the answer of each.
    """

    pence: Fraction | None
    unit: Unit
    text: str
    rule: str = ""
    records: tuple[str, ...] = ()
    source: str = ""
    confidence: str = ""
    asks: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    decides: bool = True
    choices: tuple[RateAnswer, ...] = ()

    @property
    def established(self) -> bool:
        """Whether the reference establishes the figure."""
        return self.pence is not None
