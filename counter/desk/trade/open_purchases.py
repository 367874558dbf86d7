"""What purchases still owe the book: the questions of one, each answer noted as it comes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counter.describe.description import short_line
from counter.desk.trade.trading import Trading
from counter.store.records.money import PAYMENTS
from counter.store.records.purchase import SELLERS, Purchase
from counter.trade.buying import complete_purchase
from counter.values.dates import day_words
from counter.values.money import pounds

#: What may be answered: key, label, the words `still_owed` uses for it.
QUESTIONS = (
    ("seller", "seller's name", "seller's name"),
    ("address", "seller's address", "seller's address"),
    ("seller_kind", "seller's VAT standing", "seller's VAT standing"),
    ("payment", "how it was paid", "how it was paid"),
    ("invoice_number", "seller's invoice number", "the seller's invoice number"),
    ("place", "where", ""),
    ("remarks", "remarks", ""),
)
CHOICES = {
    "seller_kind": tuple((each, each) for each in SELLERS if each),
    "payment": tuple((each, each) for each in PAYMENTS),
}


@dataclass(frozen=True, slots=True)
class OpenPurchase:
    """A purchase with what it still owes, its seller's name and what was bought, in words."""

    purchase: Purchase
    owed: tuple[str, ...]
    seller: str
    what: str

    @property
    def unsplit(self) -> bool:
        """Whether its price waits to be shared over the pieces."""
        return len(self.purchase.items) > 1 and self.purchase.split is None


def owing(trading: Trading, number: str) -> OpenPurchase:
    """One purchase. Raises UserError when there is none."""
    purchase = trading.ledger.purchases.of(number)
    return _owing(trading, purchase, trading.ledger.purchases.wanting(purchase))


def open_purchases(trading: Trading) -> list[OpenPurchase]:
    """Every purchase with something still to complete, the newest first: it is best remembered."""
    found = [_owing(trading, *each) for each in trading.ledger.purchases.incomplete()]
    return found[::-1]


def _owing(trading: Trading, purchase: Purchase, owed: tuple[str, ...]) -> OpenPurchase:
    seller = trading.ledger.people.find(purchase.seller)
    first = trading.workspace.item(purchase.items[0]) if purchase.items else None
    words = short_line(first, trading.names) if first else purchase.words
    more = f" and {len(purchase.items) - 1} more" if len(purchase.items) > 1 else ""
    return OpenPurchase(purchase, owed, seller.name if seller else "", words + more)


def answers(trading: Trading, number: str) -> Mapping[str, str]:
    """What is known so far, by the keys of QUESTIONS."""
    purchase = trading.ledger.purchases.of(number)
    seller = trading.ledger.people.find(purchase.seller)
    known = {key: str(getattr(purchase, key, "")) for key, _, _ in QUESTIONS}
    known["seller"] = seller.name if seller else ""
    known["address"] = seller.address if seller else ""
    known["seller_kind"] = known["seller_kind"] or (seller.kind if seller else "")
    return known


def note_answers(trading: Trading, number: str, given: Mapping[str, str]) -> str:
    """Note what was owed; the sentence says what is still. Raises UserError; then nothing changed."""
    if given:
        complete_purchase(trading.settings, number, **given)
    left = owing(trading, number).owed
    return f"{number}: still owed: {', '.join(left)}." if left else f"{number} is complete."


def owing_words(each: OpenPurchase, *, costs: bool) -> str:
    """A purchase in one line: number, day and seller; with `costs` its price."""
    bought = each.purchase
    paid = f"{pounds(bought.total_pence)}  " if costs else ""
    return f"{bought.id}  {day_words(bought.date)}  {paid}{each.seller}".rstrip()
