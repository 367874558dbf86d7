"""Cash with one person, added up: the law counts linked payments, received or paid."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from counter.store.ledger import Ledger
from counter.trade.settings import House
from counter.values.days import years_later
from counter.values.money import pounds


@dataclass(frozen=True, slots=True)
class CashWith:
    """Cash paid to and had from one person in the twelve months before a day, in pence."""

    paid: int
    received: int


def cash_with(ledger: Ledger, person: str, day: str) -> CashWith:
    """What passed in cash over twelve months: our reading of "linked", on the safe side."""
    since = years_later(day, -1)
    paid = sum(_cash(_of(ledger, "purchases", "seller", person, since, day)))
    received = sum(max(each, 0) for each in _cash(_of(ledger, "sales", "buyer", person, since, day)))
    return CashWith(paid, received)


def _of(
    ledger: Ledger, table: str, field: str, person: str, since: str, until: str
) -> Iterable[Mapping[str, Any]]:
    return (
        row for row in ledger.rows(table) if row.get(field) == person and since < row["date"] <= until
    )


def _cash(rows: Iterable[Mapping[str, Any]]) -> Iterable[int]:
    for row in rows:
        if row.get("payments"):
            yield from (each["pence"] for each in row["payments"] if each["method"] == "cash")
        elif row.get("payment") == "cash":
            yield row["total_pence"]


def cash_warning(house: House, person: str, more: int, day: str, *, received: bool = False) -> str:
    """One sentence when so much more cash reaches the house's warning or the law's limit, else ""."""
    so_far = cash_with(house.ledger, person, day)
    total = (so_far.received if received else so_far.paid) + more
    limit = house.limit("high-value-dealer", day)
    if limit is None or total < min(house.business.warn_cash_pence, limit.amount):
        return ""
    most = (
        pounds(limit.amount) if limit.currency == "GBP" else f"{limit.amount // 100:,} {limit.currency}"
    )
    way = "from" if received else "to"
    since = f" (in force since {limit.since})" if limit.since else ""
    return (
        f"Cash {way} this person comes to {pounds(total)} in twelve months; from {most}{since} a "
        f"dealer must be registered with HMRC before such a payment: check with HMRC."
    )


@dataclass(frozen=True, slots=True)
class CashNear:
    """Somebody with whom cash comes near the warning: their id, and twelve months' cash in pence."""

    person: str
    cash: CashWith


def cash_near(house: House, day: str) -> list[CashNear]:
    """Everybody with whom cash reached half of what the house warns from, the most first."""
    sums: dict[str, list[int]] = {}
    since = years_later(day, -1)
    for place, (table, field) in enumerate((("purchases", "seller"), ("sales", "buyer"))):
        for row in house.ledger.rows(table):
            if row.get(field) and since < row["date"] <= day:
                here = sum(max(each, 0) for each in _cash([row]))
                sums.setdefault(row[field], [0, 0])[place] += here
    least = house.business.warn_cash_pence // 2
    near = [CashNear(key, CashWith(*both)) for key, both in sums.items() if max(both) >= least > 0]
    return sorted(near, key=lambda each: -max(each.cash.paid, each.cash.received))
