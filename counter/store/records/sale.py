"""A sale, a quote and their lines: what was offered or sold, to whom, how paid, what became of it."""

from __future__ import annotations

from typing import Annotated

from counter.store.records.money import Foreign, Payment
from counter.values.item import Scheme
from counter.values.record import (
    Day,
    ExactNumber,
    Name,
    OptionalDay,
    OptionalName,
    Pence,
    Record,
    Words,
    one_of,
)

SALE_STATES = ("complete", "deposit", "on approval", "returned", "cancelled")
ENDED = ("returned", "cancelled")
DISPOSALS = ("sold", "exported", "lost", "stolen", "destroyed", "kept", "returned to seller")
QUOTE_STATES = ("open", "taken", "lapsed", "withdrawn")


class SaleLine(Record, frozen=True):
    """One piece: `price_pence` as asked, `discount_pence` its share of the discount.

    What the buyer pays for it is the price less the discount. `cost_pence`, `scheme`, `vat_fraction`
    ("1/6") and `vat_pence` are frozen at the sale, so that the book can be worked out again.
    """

    item: Name
    price_pence: Pence
    discount_pence: Pence = 0
    scheme: Scheme = ""
    cost_pence: Pence | None = None
    vat_fraction: ExactNumber = ""
    vat_pence: Pence | None = None
    words: Words = ""  # the description it was sold by


class TaxedSum(Record, frozen=True):
    """A sum that bears VAT on a day of its own: part of a deposit, or what is kept of one."""

    date: Day
    item: OptionalName = ""
    scheme: Scheme = ""
    pence: Pence = 0
    vat_fraction: ExactNumber = ""
    vat_pence: Pence = 0


class Sale(Record, frozen=True):
    """A sale or other disposal. A refund is a sale row of its own, with `refund_of` and its reason.

    An `allowance` is such a row too: its lines hold what the price fell by, and the pieces stay sold.
    `taxed` is what of a deposit bore VAT before the sale; a deposit that fell through has the day it
    `ended` and what was kept of it (`forfeit`); goods on approval that came back have theirs.
    """

    id: Name
    date: Day
    lines: tuple[SaleLine, ...] = ()
    status: Annotated[str, one_of(*SALE_STATES)] = "complete"
    disposal: Annotated[str, one_of(*DISPOSALS)] = "sold"
    payments: tuple[Payment, ...] = ()
    postage_pence: Pence = 0
    discount_pence: Pence = 0  # the whole discount, shared out over the lines
    total_pence: Pence = 0  # what the buyer owes in all, in sterling
    foreign: Foreign | None = None
    buyer: OptionalName = ""
    buyer_kind: Annotated[str, one_of("", "private", "business")] = ""
    invoice_number: Words = ""
    vat_shown: bool = False
    due_back: OptionalDay = ""  # on approval: until when
    went_out: OptionalDay = ""  # on approval and kept: since when
    exchange_purchase: OptionalName = ""  # what was taken in part exchange
    quote: OptionalName = ""
    refund_of: OptionalName = ""
    allowance: bool = False
    taxed: tuple[TaxedSum, ...] = ()
    ended: OptionalDay = ""
    forfeit: TaxedSum | None = None
    reason: Words = ""
    terms: Words = ""  # guarantee, extension for expertising
    place: Words = ""
    words: Words = ""  # as typed
    remarks: Words = ""

    @property
    def went(self) -> bool:
        """Whether the pieces go to somebody who pays: not lost, stolen, destroyed, kept, sent back."""
        return self.disposal in ("sold", "exported")

    @property
    def pieces(self) -> tuple[str, ...]:
        """The stock numbers in it."""
        return tuple(line.item for line in self.lines)

    @property
    def made(self) -> tuple[Payment, ...]:
        """The payments that were made: what is noted as owed is none."""
        return tuple(each for each in self.payments if each.method != "owed")

    @property
    def received(self) -> int:
        """What the payments made come to, in pence; below nought it was paid back."""
        return sum(each.pence for each in self.made)

    @property
    def noted_owed(self) -> int:
        """What the payments say is owed, in pence; below nought to the buyer."""
        return sum(each.pence for each in self.payments if each.method == "owed")

    def why_not_whole(self) -> str:
        """What does not hold together in a sale, in words; "" when it does."""
        items = self.pieces
        if len(set(items)) != len(items):
            return "lines name a piece twice"
        for line in self.lines:
            if line.discount_pence > line.price_pence:
                return f"discount_pence of {line.item} is more than its price"
        if sum(each.discount_pence for each in self.lines) != self.discount_pence:
            return "discount_pence is not the sum of its lines' discounts"
        return ""


class QuotedPiece(Record, frozen=True):
    """One piece in a quote."""

    item: Name
    price_pence: Pence
    discount_pence: Pence = 0
    words: Words = ""


class Quote(Record, frozen=True):
    """Prices offered to somebody until a day; `sale` once it was taken."""

    id: Name
    date: Day
    lines: tuple[QuotedPiece, ...] = ()
    discount_pence: Pence = 0
    total_pence: Pence = 0
    foreign: Foreign | None = None
    valid_until: OptionalDay = ""
    customer: OptionalName = ""
    status: Annotated[str, one_of(*QUOTE_STATES)] = "open"
    sale: OptionalName = ""
    words: Words = ""
    remarks: Words = ""
