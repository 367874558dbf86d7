"""A purchase: a lot as bought, what paper proves it, and how its price was split over the pieces.

Holds what a stock book and a self-made purchase invoice ask for; the seller's name and address are in
`people`, so that they can be erased.
"""

from __future__ import annotations

from typing import Annotated

from counter.store.records.money import PAYMENTS, Foreign, Payment
from counter.values.item import Scheme
from counter.values.record import Day, Name, OptionalName, Pence, Record, Words, one_of

SELLERS = ("", "private", "unregistered business", "margin scheme", "VAT shown", "import")
"""The seller's standing for VAT; "" not asked. "VAT shown" and "import" keep a piece off the scheme."""

BASES = ("single", "expected prices", "by hand", "equally")


class Share(Record, frozen=True):
    """The part of a lot's price that one piece bears, and the expected price it was worked out from."""

    item: Name
    pence: Pence
    expected_pence: Pence | None = None
    words: Words = ""


class Split(Record, frozen=True):
    """How a lot was split, when, on what basis: frozen once noted, corrected only by a new entry."""

    date: Day
    basis: Annotated[str, one_of(*BASES)]
    shares: tuple[Share, ...] = ()
    words: Words = ""

    @property
    def how(self) -> str:
        """The basis in a sentence: "split by hand", "by expected prices", "equally"."""
        return {"single": "as one piece", "expected prices": "by expected prices"}.get(
            self.basis, self.basis
        )


class Purchase(Record, frozen=True):
    """A purchase. `total_pence` is the sterling figure that counts, nothing added to it.

    `items` are the stock numbers that came of it.
    """

    id: Name
    date: Day
    total_pence: Pence
    words: Words = ""  # as typed
    description: Words = ""
    items: tuple[Name, ...] = ()
    payment: Annotated[str, one_of("", *PAYMENTS)] = ""
    payments: tuple[Payment, ...] = ()  # when paid in parts
    foreign: Foreign | None = None
    premium_pence: Pence = 0  # buyer's premium within the total
    vat_pence: Pence = 0  # VAT shown on the paper, within the total
    costs_pence: Pence = 0  # expertising, postage: outside the total
    seller: OptionalName = ""
    seller_kind: Annotated[str, one_of(*SELLERS)] = ""
    scheme: Scheme = ""
    invoice_number: Words = ""  # the seller's, or our own number when self-made
    self_invoiced: bool = False
    seller_stock_number: Words = ""
    title: Annotated[str, one_of("", "said", "signed")] = ""  # that the goods are the seller's to sell
    identity_seen: Words = ""  # the kind of document, never its number
    provenance: Words = ""
    place: Words = ""
    split: Split | None = None
    returned: tuple[Payment, ...] = ()  # money back for a piece (its `words`) that went back
    exchange_sale: OptionalName = ""  # the sale it was taken in part exchange for
    cancelled: Words = ""  # why it fell through
    remarks: Words = ""

    def why_not_whole(self) -> str:
        """What does not hold together in a purchase, in words; "" when it does."""
        if self.split is None:
            return ""
        shared = sum(each.pence for each in self.split.shares)
        if shared != self.total_pence:
            return f"split shares come to {shared} pence, but total_pence is {self.total_pence}"
        items = [each.item for each in self.split.shares]
        if len(set(items)) != len(items):
            return "split names a piece twice"
        if set(items) != set(self.items):
            return "split and items must name the same pieces"
        return ""
