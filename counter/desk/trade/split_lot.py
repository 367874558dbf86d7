"""Lots: the shares looked at before they are frozen, and a lot in one line broken into pieces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from counter.desk.stock.item_from_text import read_piece
from counter.desk.trade.trading import Trading
from counter.trade.buying import Bought
from counter.trade.lots import break_lot, split_by_expected, split_by_hand
from counter.values.errors import InputError
from counter.values.money import pounds, read_pence, share


def split_lot(
    trading: Trading, number: str, prices: Mapping[str, int], day: str = "", *, by_hand: bool = False
) -> Bought:
    """Share a lot's price by pence per stock number and freeze it. Raises UserError."""
    verb = split_by_hand if by_hand else split_by_expected
    return verb(trading.settings, number, prices, day or trading.today)


def break_up(trading: Trading, number: str, pieces: Sequence[tuple[str, int]], day: str = "") -> Bought:
    """Break a lot that came in as one line into pieces, each its words and its expected pence."""
    items = [read_piece(words, trading.library).item for words, _ in pieces]
    expected = [price for _, price in pieces]
    return break_lot(trading.settings, number, items, expected, day or trading.today)


def read_priced_piece(text: str) -> tuple[str, int]:
    """A piece as typed with its expected price: "2d blue pl 3 KC @45" or "... £45". Raises InputError."""
    words, sign, price = text.strip().rpartition("@")
    if not sign:
        words, sign, price = text.strip().rpartition("£")
    if not sign or not words.strip():
        raise InputError("Write the piece and its expected price, as: 2d blue pl 3 KC @45.")
    return words.strip(), read_pence(price.strip(), "an expected price")


def looked_at(
    total: int, prices: Mapping[str, int], count: int, *, by_hand: bool
) -> tuple[dict[str, int], str]:
    """The shares as far as they are known, and what is still wanted ("" when it can be frozen)."""
    if by_hand:
        left = total - sum(prices.values())
        done = not left and len(prices) == count
        return dict(prices), "" if done else f"{pounds(left)} left to share"
    if len(prices) < count:
        return {}, f"{count - len(prices)} without an expected price"
    try:
        return dict(zip(prices, share(total, list(prices.values())), strict=True)), ""
    except InputError as bad:
        return {}, str(bad)
