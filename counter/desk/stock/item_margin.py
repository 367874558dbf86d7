"""What a piece cost, what it would leave, and what to offer for its like: for the dealer's eyes."""

from __future__ import annotations

from dataclasses import dataclass

from counter.desk.trade.trading import Trading
from counter.judge.price.offer import Offer
from counter.judge.price.suggestion import Suggestion
from counter.values.item import Item
from counter.values.vat import NO_VAT, Margin, on_full_price, on_margin


@dataclass(frozen=True, slots=True)
class ItemMargin:
    """In pence. `left` is what selling at the asking price today would make; None when cost or price
    is not known, or it is gone. `bought` is the purchase's date, ISO. `taxed` says VAT counts."""

    cost: int | None
    purchase: str
    bought: str
    scheme: str
    left: Margin | None
    taxed: bool
    offer: Offer | None
    remarks: str


def item_margin(trading: Trading, item: Item, made: Suggestion) -> ItemMargin:
    """Work them out by the house's own rates; no offer stands without a suggestion."""
    bought = trading.ledger.purchases.find(item.purchase)
    part = NO_VAT if item.scheme == "none" else trading.vat_part()
    left = None
    if item.cost is not None and item.asking is not None and item.status in ("in stock", "reserved"):
        sum_of = on_full_price if item.scheme == "ordinary" else on_margin
        left = sum_of(item.cost, item.asking, part)
    return ItemMargin(
        cost=item.cost,
        purchase=item.purchase,
        bought=bought.date if bought else "",
        scheme=item.scheme,
        left=left,
        taxed=bool(part),
        offer=None if made.marked is None else trading.offer(made.marked),
        remarks=item.remarks,
    )
