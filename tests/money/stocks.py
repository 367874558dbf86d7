"""Small stocks of made-up sales, and the price judge over them; read by tests and by a benchmark."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from datetime import date, timedelta
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any

from counter.desk.stock.item_from_text import read_piece
from counter.desk.trade.pricing import market_of
from counter.judge.price.comparables import Evidence
from counter.judge.price.schedule import Schedule
from counter.judge.price.suggest import suggest
from counter.judge.price.suggestion import Suggestion
from counter.judge.price.things import Market
from counter.reference.library import Library
from counter.values.item import Item

LIBRARY = Library()
TODAY = date(2026, 11, 25)
STOCKS: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parent / "price_stocks.toml").read_text(encoding="utf-8")
)["stock"]
_LETTERS = "ABCDEFGHIJKLMNOPQRST"


@cache
def market() -> Market:
    """The market of a house that edited nothing."""
    return market_of(LIBRARY, Schedule(LIBRARY.money.schedule), 36)


@cache
def item_of(words: str) -> Item:
    """The piece that a purchase line of these words notes."""
    return read_piece(words, LIBRARY).item


def evidence(stock: dict[str, Any]) -> list[Evidence]:
    """The sales and asking prices of a stock as the desk would hand them over."""
    return list(_evidence(stock))


def _evidence(stock: dict[str, Any]) -> Iterator[Evidence]:
    numbers = count(1)
    for words, prices, last, step in stock.get("sold", ()):
        for place, price in enumerate(prices):
            day = TODAY - timedelta(days=last + step * place)
            yield _one(words, price, day, next(numbers), "sold")
    for words, prices in stock.get("asked", ()):
        for price in prices:
            yield _one(words, price, TODAY, next(numbers), "asking")
    if trend := stock.get("trend"):
        for place in range(trend["number"]):
            years = trend["years"] * place / (trend["number"] - 1)
            noise = (1.04, 0.97, 1.02, 0.95, 1.0, 1.03, 0.98)[place % 7]
            then = trend["now"] * noise / (1 + trend["yearly"] / 100) ** years
            day = TODAY - timedelta(days=round(years * 365.25))
            yield _one(trend["words"], round(then), day, next(numbers), "sold")


def _one(words: str, price: int, day: date, number: int, kind: Any) -> Evidence:
    letters = _LETTERS[number % 20] + _LETTERS[number % 12]
    item = item_of(words.replace("{xy}", letters))
    return Evidence(f"T-{number}", item, price, day.isoformat(), kind)


def priced(ask: str, sales: list[Evidence]) -> Suggestion:
    """The line in hand priced from these sales."""
    read = read_piece(ask, LIBRARY)
    return suggest(market().thing(read.item, read.reading), sales, market(), TODAY.isoformat())


def said(made: Suggestion) -> str:
    """Everything the answer says beside its list of comparables."""
    judgement = made.judgement
    parts = [judgement.verdict, made.basis, *judgement.cautions, *judgement.asks]
    return " ".join([*parts, *(reason.text for reason in judgement.reasons)])


def wrong(stock: dict[str, Any], made: Suggestion) -> list[str]:
    """What of a stock's demands is not met, in words."""
    found, price = [], made.price
    if stock.get("silent") and price is not None:
        found.append(f"suggests {price}")
    hand = stock.get("hand")
    if hand and (price is None or abs(price - hand) * 10 > hand):
        found.append(f"{price}, by hand {hand}: {made.judgement.verdict}")
    if stock.get("claim") and made.claim is None:
        found.append("no claim")
    for low, high in stock.get("never", ()):
        if price is not None and low < price < high:
            found.append(f"{price} lies between {low} and {high}")
    text = said(made)
    found += [
        f"does not say {each}: {text}" for each in stock.get("holds", ()) if not re.search(each, text)
    ]
    if price is not None and any(each.flagged and each.adjusted == price for each in made.comparables):
        found.append("suggests a flagged price")
    return found
