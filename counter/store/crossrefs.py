"""Do the tables hang together? Every number one row names must be a row of another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from counter.store.entry import Row
from counter.store.state import State

Crossed = Iterator[tuple[Any, str]]
"""The weight of a finding ("fault", "to do" or "remark") and its words."""


def crossed(state: State) -> Crossed:
    """Everything the cross-references have to say."""
    yield from _items(state)
    yield from _purchases(state)
    yield from _sales(state)
    yield from _others(state)
    for conflict in state.rows.get("conflicts", {}).values():
        yield (
            "to do",
            f"{conflict['key']} in {conflict['table']} was changed on two laptops: settle which holds.",
        )


def _items(state: State) -> Crossed:
    sold = _sold(state)
    for number, item in state.rows.get("items", {}).items():
        yield from _named(state, f"Stock item {number}", "purchases", item.get("purchase"))
        times = sold[number]
        if times > 1:
            yield "to do", f"Stock item {number} is in {times} sales: settle which holds."
        if times and item.get("status", "in stock") == "in stock":
            yield "to do", f"Stock item {number} was sold but still stands in stock."
        if not times and item.get("status") == "sold":
            yield "to do", f"Stock item {number} is marked sold but is in no sale."


def _sold(state: State) -> Counter[str]:
    """How many standing sales each piece is in: refunds and undone sales count for nothing."""
    sales = state.rows.get("sales", {})
    refunded = Counter(
        line["item"]
        for sale in sales.values()
        if sale.get("refund_of")
        for line in sale.get("lines", ())
    )
    counted = Counter(
        line["item"]
        for sale in sales.values()
        if not sale.get("refund_of") and sale.get("status", "complete") in ("complete", "deposit")
        for line in sale.get("lines", ())
    )
    return counted - refunded


def _purchases(state: State) -> Crossed:
    for key, row in state.rows.get("purchases", {}).items():
        what = f"Purchase {key}"
        for number in row.get("items", ()):
            yield from _named(state, what, "items", number)
        yield from _named(state, what, "people", row.get("seller"))
        yield from _named(state, what, "sales", row.get("exchange_sale"))


def _sales(state: State) -> Crossed:
    for key, row in state.rows.get("sales", {}).items():
        what = f"Sale {key}"
        for line in row.get("lines", ()):
            yield from _named(state, what, "items", line["item"])
        yield from _named(state, what, "people", row.get("buyer"))
        yield from _named(state, what, "purchases", row.get("exchange_purchase"))
        yield from _named(state, what, "quotes", row.get("quote"))
        yield from _named(state, what, "sales", row.get("refund_of"))


def _others(state: State) -> Crossed:
    for key, row in state.rows.get("quotes", {}).items():
        for line in row.get("lines", ()):
            yield from _named(state, f"Quote {key}", "items", line["item"])
        yield from _named(state, f"Quote {key}", "people", row.get("customer"))
        yield from _named(state, f"Quote {key}", "sales", row.get("sale"))
    for key, row in state.rows.get("baths", {}).items():
        yield from _named(state, f"Bath {key}", "items", row.get("item"))


def _named(state: State, what: str, table: str, key: Any) -> Crossed:
    rows: dict[str, Row] = state.rows.get(table, {})
    if key and key not in rows:
        yield "fault", f"{what} names {key}, which is not in {table}."
