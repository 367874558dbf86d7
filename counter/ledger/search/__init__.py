"""Find stock at every key: one whole number as a row of bits for each word, best match first."""

from counter.ledger.search.hit import Hit
from counter.ledger.search.index import StockIndex

__all__ = ["Hit", "StockIndex"]
