"""Parts that purchases, sales and quotes share: foreign money and how things are paid."""

from __future__ import annotations

from dataclasses import dataclass

from counter.store.records import rules
from counter.store.records.shape import ruled

PAYMENTS = ("cash", "card", "transfer", "cheque", "exchange", "owed", "other")
SCHEMES = ("", "margin", "global", "ordinary", "none")
"""How VAT is accounted for; "" not yet decided, "none" no VAT at all (unregistered, valid postage)."""


@dataclass(frozen=True, slots=True)
class Foreign:
    """The foreign sum behind a sterling one, so that the sterling can be worked out again.

    `amount_minor` is in the currency's minor unit; `rate` is exact text, units of it to one pound.
    """

    currency: str = ruled(rules.name)
    amount_minor: int = ruled(rules.count)
    rate: str = ruled(rules.number_words)
    rate_date: str = ruled(rules.optional_day, "")
    rate_source: str = ruled(rules.words, "")


@dataclass(frozen=True, slots=True)
class Payment:
    """A sum that changed hands: to us on a sale (negative when paid back), from us on a purchase."""

    date: str = ruled(rules.day)
    method: str = ruled(rules.one_of(*PAYMENTS))
    pence: int = ruled(rules.signed_pence)
    words: str = ruled(rules.words, "")
