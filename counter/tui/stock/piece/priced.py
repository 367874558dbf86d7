"""A piece with its price and the dealer's own figures, worked out together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk.own_figures import OwnFigures, own_figures
from counter.judge.price.picture import Picture
from counter.judge.price.suggest import Suggestion
from counter.values.item import Item

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class Priced:
    """A piece priced: worked out in a thread, because all stock and sales are read for it."""

    def __init__(self, desk: Desk, item: Item) -> None:
        dealing = desk.dealing
        self.item = item
        self.made: Suggestion = dealing.price(item)
        self.drawn: Picture = dealing.picture(item, self.made)
        self.own: OwnFigures = own_figures(dealing, item, self.made)
