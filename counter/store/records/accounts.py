"""Records of the accounts: costs beside the stock, fairs, and returns as they were filed."""

from __future__ import annotations

from typing import Annotated

from counter.store.records.money import PAYMENTS
from counter.values.record import Day, Name, OptionalName, Pence, Record, SignedPence, Words, one_of

#: What a cost is for; the words of a tax return are the accountant's.
CATEGORIES = (
    "stand",
    "travel",
    "lodging",
    "postage",
    "expertising",
    "materials",
    "commission",
    "card fees",
    "insurance",
    "other",
)


class Outlay(Record, frozen=True):
    """A cost that is no part of a purchase price (rule "purchase-price-excludes").

    `pence` is all that was paid, `vat_pence` the VAT shown within it. `item` is the piece it was for,
    `fair` the fair.
    """

    id: Name
    date: Day
    category: Annotated[str, one_of(*CATEGORIES)]
    pence: Pence
    vat_pence: Pence = 0
    method: Annotated[str, one_of(*PAYMENTS)] = "cash"
    item: OptionalName = ""
    fair: OptionalName = ""
    words: Words = ""

    def why_not_whole(self) -> str:
        """The VAT within a sum cannot be more than the sum."""
        return "vat_pence is more than pence" if self.vat_pence > self.pence else ""


class Fair(Record, frozen=True):
    """A fair: its name, its days, and the stock numbers taken there."""

    id: Name
    name: Words
    since: Day
    until: Day
    taken: tuple[Name, ...] = ()
    words: Words = ""


class FiledDeal(Record, frozen=True):
    """What one sale or purchase came to in a return as filed, in pence; `pool` in global accounting."""

    id: Name
    sold_pence: SignedPence = 0
    vat_pence: SignedPence = 0
    bought_pence: SignedPence = 0
    input_vat_pence: SignedPence = 0
    pool_pence: SignedPence = 0


class Filed(Record, frozen=True):
    """A return as it was filed on `date`: its boxes frozen, with what each deal came to in it."""

    id: Name
    since: Day
    until: Day
    date: Day
    box_1_pence: SignedPence = 0
    box_4_pence: SignedPence = 0
    box_6_pence: SignedPence = 0
    box_7_pence: SignedPence = 0
    deals: tuple[FiledDeal, ...] = ()
    words: Words = ""
