"""A piece with its price and the dealer's own figures, worked out together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk.stock.item_margin import ItemMargin, item_margin
from counter.judge.price.multiples import BothWays
from counter.judge.price.price_chart import Picture
from counter.judge.price.suggestion import Suggestion
from counter.values.item import Item

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class PricedItem:
    """A piece priced: worked out in a thread, because all stock and sales are read for it."""

    def __init__(self, desk: Desk, item: Item) -> None:
        trading = desk.trading
        self.item = item
        priced = trading.priced(item)
        self.made: Suggestion = priced.made
        self.ways: BothWays | None = priced.ways
        self.drawn: Picture = trading.picture(item, self.made)
        self.own: ItemMargin = item_margin(trading, item, self.made)
