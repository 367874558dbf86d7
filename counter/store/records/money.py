"""Parts that purchases, sales and quotes share: foreign money and how things are paid."""

from __future__ import annotations

from typing import Annotated

from counter.values.errors import InputError
from counter.values.record import (
    Count,
    Day,
    ExactNumber,
    Name,
    OptionalDay,
    Record,
    SignedPence,
    Words,
    one_of,
)

PAYMENTS = ("cash", "card", "transfer", "cheque", "exchange", "owed", "other")


def way_to_pay(method: str) -> str:
    """The method, where it is one of PAYMENTS; raises InputError where it is not."""
    if method not in PAYMENTS:
        raise InputError(f"{method or 'Nothing'} is not a way to pay; use {', '.join(PAYMENTS)}.")
    return method


class Foreign(Record, frozen=True):
    """The foreign sum behind a sterling one, so that the sterling can be worked out again.

    `amount_minor` is in the currency's minor unit; `rate` is exact text, units of it to one pound.
    """

    currency: Name
    amount_minor: Count
    rate: ExactNumber
    rate_date: OptionalDay = ""
    rate_source: Words = ""


class Payment(Record, frozen=True):
    """A sum that changed hands: to us on a sale (negative when paid back), from us on a purchase."""

    date: Day
    method: Annotated[str, one_of(*PAYMENTS)]
    pence: SignedPence
    words: Words = ""
