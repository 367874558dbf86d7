"""A sale, a quote and their lines: what was offered or sold, to whom, how paid, what became of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from counter.store.records import rules
from counter.store.records.money import SCHEMES, Foreign, Payment
from counter.store.records.shape import Shape, many, maybe, ruled

SALE_STATES = ("complete", "deposit", "on approval", "returned", "cancelled")
DISPOSALS = ("sold", "exported", "lost", "stolen", "destroyed", "kept", "returned to seller")
QUOTE_STATES = ("open", "taken", "lapsed", "withdrawn")


@dataclass(frozen=True, slots=True)
class SaleLine:
    """One piece: `price_pence` as asked, `discount_pence` its share of the discount.

    What the buyer pays for it is the price less the discount. `cost_pence`, `scheme`, `vat_fraction`
    ("1/6") and `vat_pence` are frozen at the sale, so that the book can be worked out again.
    """

    item: str = ruled(rules.name)
    price_pence: int = ruled(rules.pence)
    discount_pence: int = ruled(rules.pence, 0)
    scheme: str = ruled(rules.one_of(*SCHEMES), "")
    cost_pence: int | None = ruled(rules.or_none(rules.pence), None)
    vat_fraction: str = ruled(rules.number_words, "")
    vat_pence: int | None = ruled(rules.or_none(rules.pence), None)
    words: str = ruled(rules.words, "")  # the description it was sold by


@dataclass(frozen=True, slots=True)
class Sale:
    """A sale or other disposal. A refund is a sale row of its own, with `refund_of` and its reason."""

    id: str = ruled(rules.name)
    date: str = ruled(rules.day)
    lines: tuple[SaleLine, ...] = many(SaleLine)
    status: str = ruled(rules.one_of(*SALE_STATES), "complete")
    disposal: str = ruled(rules.one_of(*DISPOSALS), "sold")
    payments: tuple[Payment, ...] = many(Payment)
    postage_pence: int = ruled(rules.pence, 0)
    discount_pence: int = ruled(rules.pence, 0)  # the whole discount, shared out over the lines
    total_pence: int = ruled(rules.pence, 0)  # what the buyer owes in all, in sterling
    foreign: Foreign | None = field(default=None, metadata=maybe(Foreign))
    buyer: str = ruled(rules.optional_name, "")
    buyer_kind: str = ruled(rules.one_of("", "private", "business"), "")
    invoice_number: str = ruled(rules.words, "")
    vat_shown: bool = ruled(rules.flag, False)
    due_back: str = ruled(rules.optional_day, "")  # on approval: until when
    exchange_purchase: str = ruled(rules.optional_name, "")  # what was taken in part exchange
    quote: str = ruled(rules.optional_name, "")
    refund_of: str = ruled(rules.optional_name, "")
    reason: str = ruled(rules.words, "")
    terms: str = ruled(rules.words, "")  # guarantee, extension for expertising
    place: str = ruled(rules.words, "")
    words: str = ruled(rules.words, "")  # as typed
    remarks: str = ruled(rules.words, "")


@dataclass(frozen=True, slots=True)
class QuoteLine:
    """One piece in a quote."""

    item: str = ruled(rules.name)
    price_pence: int = ruled(rules.pence)
    discount_pence: int = ruled(rules.pence, 0)
    words: str = ruled(rules.words, "")


@dataclass(frozen=True, slots=True)
class Quote:
    """Prices offered to somebody until a day; `sale` once it was taken."""

    id: str = ruled(rules.name)
    date: str = ruled(rules.day)
    lines: tuple[QuoteLine, ...] = many(QuoteLine)
    discount_pence: int = ruled(rules.pence, 0)
    total_pence: int = ruled(rules.pence, 0)
    foreign: Foreign | None = field(default=None, metadata=maybe(Foreign))
    valid_until: str = ruled(rules.optional_day, "")
    customer: str = ruled(rules.optional_name, "")
    status: str = ruled(rules.one_of(*QUOTE_STATES), "open")
    sale: str = ruled(rules.optional_name, "")
    words: str = ruled(rules.words, "")
    remarks: str = ruled(rules.words, "")


SALE: Shape[Sale] = Shape(Sale, "sale")
QUOTE: Shape[Quote] = Shape(Quote, "quote")


def whole_sale(sale: Sale) -> str:
    """What does not hold together in a sale, in words; "" when it does."""
    items = [each.item for each in sale.lines]
    if len(set(items)) != len(items):
        return "lines name a piece twice"
    for line in sale.lines:
        if line.discount_pence > line.price_pence:
            return f"discount_pence of {line.item} is more than its price"
    if sum(each.discount_pence for each in sale.lines) != sale.discount_pence:
        return "discount_pence is not the sum of its lines' discounts"
    return ""
