"""A purchase: a lot as bought, what paper proves it, and how its price was split over the pieces.

Holds what a stock book and a self-made purchase invoice ask for; the seller's name and address are in
`people`, so that they can be erased.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from counter.store.records import rules
from counter.store.records.money import PAYMENTS, SCHEMES, Foreign, Payment
from counter.store.records.shape import Shape, many, maybe, ruled

SELLERS = ("", "private", "unregistered business", "margin scheme", "VAT shown", "import")
"""The seller's standing for VAT; "" not asked. "VAT shown" and "import" keep a piece off the scheme."""

BASES = ("single", "expected prices", "by hand", "equally")


@dataclass(frozen=True, slots=True)
class Share:
    """The part of a lot's price that one piece bears, and the expected price it was worked out from."""

    item: str = ruled(rules.name)
    pence: int = ruled(rules.pence)
    expected_pence: int | None = ruled(rules.or_none(rules.pence), None)
    words: str = ruled(rules.words, "")


@dataclass(frozen=True, slots=True)
class Split:
    """How a lot was split, when, on what basis: frozen once noted, corrected only by a new entry."""

    date: str = ruled(rules.day)
    basis: str = ruled(rules.one_of(*BASES))
    shares: tuple[Share, ...] = many(Share)
    words: str = ruled(rules.words, "")

    @property
    def how(self) -> str:
        """The basis in a sentence: "split by hand", "by expected prices", "equally"."""
        return {"single": "as one piece", "expected prices": "by expected prices"}.get(
            self.basis, self.basis
        )


@dataclass(frozen=True, slots=True)
class Purchase:
    """A purchase. `total_pence` is the sterling figure that counts, nothing added to it.

    `items` are the stock numbers that came of it.
    """

    id: str = ruled(rules.name)
    date: str = ruled(rules.day)
    total_pence: int = ruled(rules.pence)
    words: str = ruled(rules.words, "")  # as typed
    description: str = ruled(rules.words, "")
    items: tuple[str, ...] = ruled(rules.each(rules.name), ())
    payment: str = ruled(rules.one_of("", *PAYMENTS), "")
    payments: tuple[Payment, ...] = many(Payment)  # when paid in parts
    foreign: Foreign | None = field(default=None, metadata=maybe(Foreign))
    premium_pence: int = ruled(rules.pence, 0)  # buyer's premium within the total
    vat_pence: int = ruled(rules.pence, 0)  # VAT shown on the paper, within the total
    costs_pence: int = ruled(rules.pence, 0)  # expertising, postage: outside the total
    seller: str = ruled(rules.optional_name, "")
    seller_kind: str = ruled(rules.one_of(*SELLERS), "")
    scheme: str = ruled(rules.one_of(*SCHEMES), "")
    invoice_number: str = ruled(rules.words, "")  # the seller's, or our own number when self-made
    self_invoiced: bool = ruled(rules.flag, False)
    seller_stock_number: str = ruled(rules.words, "")
    title: str = ruled(
        rules.one_of("", "said", "signed"), ""
    )  # that the goods are the seller's to sell
    identity_seen: str = ruled(rules.words, "")  # the kind of document, never its number
    provenance: str = ruled(rules.words, "")
    place: str = ruled(rules.words, "")
    split: Split | None = field(default=None, metadata=maybe(Split))
    exchange_sale: str = ruled(rules.optional_name, "")  # the sale it was taken in part exchange for
    cancelled: str = ruled(rules.words, "")  # why it fell through
    remarks: str = ruled(rules.words, "")


PURCHASE: Shape[Purchase] = Shape(Purchase, "purchase")


def whole_purchase(row: Purchase) -> str:
    """What does not hold together in a purchase, in words; "" when it does."""
    if row.split is None:
        return ""
    shared = sum(each.pence for each in row.split.shares)
    if shared != row.total_pence:
        return f"split shares come to {shared} pence, but total_pence is {row.total_pence}"
    items = [each.item for each in row.split.shares]
    if len(set(items)) != len(items):
        return "split names a piece twice"
    if set(items) != set(row.items):
        return "split and items must name the same pieces"
    return ""
