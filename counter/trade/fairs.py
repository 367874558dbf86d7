"""Costs beside the stock, and a fair: what it cost, what was taken by hour and way, what of it sold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace

from counter.store.records.accounts import CATEGORIES, Fair, Outlay
from counter.store.records.check import put
from counter.store.records.money import way_to_pay
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.vat_scheme import line_prices
from counter.values.days import read_period
from counter.values.errors import InputError


def note_cost(settings: Settings, cost: Outlay) -> Outlay:
    """Note a cost under a number of its own. Raises UserError; then nothing changed."""
    if cost.category not in CATEGORIES:
        raise InputError(f"{cost.category} is not a kind of cost; use {', '.join(CATEGORIES)}.")
    if way_to_pay(cost.method) in ("exchange", "owed") or cost.pence <= 0:
        raise InputError("Say what was paid, above nothing, and by cash, card, transfer or cheque.")
    if cost.vat_pence > cost.pence:
        raise InputError("The VAT within a cost cannot be more than the cost.")
    ledger = settings.ledger
    if cost.item:
        ledger.items.of(cost.item)
    if cost.fair:
        ledger.accounts.fairs.of(cost.fair)
    noted = replace(cost, id=ledger.next_number("costs"))
    ledger.note("cost noted", [put(noted)])
    return noted


def note_fair(settings: Settings, name: str, since: str, until: str, taken: Sequence[str]) -> Fair:
    """Note a fair with what is taken there. Raises UserError for a piece that is not in the books."""
    ledger = settings.ledger
    read_period(since, until)
    if not name.strip():
        raise InputError("Give the fair its name.")
    for piece in taken:
        ledger.items.of(piece)
    number = ledger.next_number("fairs")
    fair = Fair(
        id=number, name=name.strip(), since=since, until=until, taken=tuple(dict.fromkeys(taken))
    )
    ledger.note("fair noted", [put(fair)])
    return fair


@dataclass(frozen=True, slots=True)
class FairRead:
    """A fair in pence. `hours` are takings by hour ("11") and way; `unnoted` deals without a payment.

    `sold` are pieces taken and sold there with their prices, `left` those that came home, `others`
    pieces sold that were not on the list. `before` is the last fair of that name.
    """

    fair: Fair
    unnoted: tuple[tuple[str, int], ...]
    takings: Mapping[str, int]
    hours: Mapping[str, Mapping[str, int]]
    costs: Mapping[str, int]
    sold: tuple[tuple[str, int], ...]
    left: tuple[str, ...]
    others: tuple[tuple[str, int], ...]
    profit: int
    before: FairRead | None = None

    @property
    def net(self) -> int:
        """What was left of the profit on its sales after the fair's costs."""
        return self.profit - sum(self.costs.values())


def read_fair(book: Book, fair: Fair, *, look_back: bool = True) -> FairRead:
    """Work a fair out from the deals and costs of its days."""
    sales = [sale for sale in book.sales(fair.since, fair.until) if sale.went]
    prices: Counter[str] = Counter()
    for sale in sales:
        for item, price in line_prices(sale).items():
            prices[item] += -price if sale.refund_of else price
    went = {item: price for item, price in prices.items() if price}
    lines = book.lines(fair.since, fair.until)
    hours = _hours(book, fair)
    takings: Counter[str] = Counter()
    for ways in hours.values():
        takings.update(ways)
    return FairRead(
        fair,
        unnoted=tuple(_unnoted(book, fair)),
        takings=dict(takings),
        hours={hour: dict(ways) for hour, ways in sorted(hours.items())},
        costs=_costs(book, fair),
        sold=tuple((each, went[each]) for each in fair.taken if each in went),
        left=tuple(each for each in fair.taken if each not in went),
        others=tuple((each, price) for each, price in went.items() if each not in fair.taken),
        profit=sum(
            (line.selling_price or 0) - (line.purchase_price or 0) - (line.vat_due or 0)
            for line in lines
            if line.sale_date and line.selling_price is not None
        ),
        before=_before(book, fair) if look_back else None,
    )


def _unnoted(book: Book, fair: Fair) -> list[tuple[str, int]]:
    """Deals of its days whose payment is not noted, or is owed: number and pence."""
    found = [
        (each.id, each.total_pence)
        for each in book.purchases(fair.since, fair.until)
        if not each.payment and not each.payments
    ]
    return found + [
        (sale.id, sale.noted_owed) for sale in book.sales(fair.since, fair.until) if sale.noted_owed > 0
    ]


def _costs(book: Book, fair: Fair) -> dict[str, int]:
    found: Counter[str] = Counter()
    for cost in book.ledger.accounts.costs.records():
        if cost.fair == fair.id:
            back = cost.vat_pence if book.settings.business.registered(cost.date) else 0
            found[cost.category] += cost.pence - back
    return dict(sorted(found.items()))


def _hours(book: Book, fair: Fair) -> dict[str, Counter[str]]:
    """Payments of its days by the hour they were noted; "" for one noted on another day."""
    rows: dict[str, list[tuple[str, str, int]]] = {}
    hours: dict[str, Counter[str]] = {}
    for entry in book.ledger.entries():
        for change in entry.changes:
            if change.table != "sales":
                continue
            before, now = rows.get(change.key, []), _made(change.row)
            rows[change.key] = now
            for sign, parts, others in ((1, now, before), (-1, before, now)):
                for part, count in (Counter(parts) - Counter(others)).items():
                    day, method, pence = part
                    if fair.since <= day <= fair.until:
                        hour = entry.at[11:13] if entry.at[:10] == day else ""
                        hours.setdefault(hour, Counter())[method] += sign * count * pence
    return hours


def _made(row: Mapping[str, Any] | None) -> list[tuple[str, str, int]]:
    paid = (row or {}).get("payments", ())
    return [(each["date"], each["method"], each["pence"]) for each in paid if each["method"] != "owed"]


def _before(book: Book, fair: Fair) -> FairRead | None:
    """The fair of that name before this one."""
    name = fair.name.casefold()
    earlier = [
        each
        for each in book.ledger.accounts.fairs.records()
        if each.name.casefold() == name and each.until < fair.since
    ]
    last = max(earlier, key=lambda each: each.since, default=None)
    return read_fair(book, last, look_back=False) if last else None
