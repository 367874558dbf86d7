"""What there was on a day: stock at cost, owed to us, deposits held, out on approval, owed by us."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counter.describe.description import short_line
from counter.store.records.purchase import Purchase
from counter.store.records.sale import Sale
from counter.trade.stock_book import Book
from counter.values.item import Item


@dataclass(frozen=True, slots=True)
class Holding:
    """A piece that was there: its cost in pence (None: its lot is not split), and what is odd.

    `asking` is what is asked now, which may help to judge the net realisable value; it is none.
    """

    number: str
    words: str
    bought: str
    cost: int | None
    scheme: str
    asking: int | None = None
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Claim:
    """A sum owed to or by us, or held, or out on approval, by deal and person; in pence."""

    deal: str
    since: str
    person: str
    pence: int
    words: str = ""


@dataclass(frozen=True, slots=True)
class DayStanding:
    """What there was at the end of a day."""

    day: str
    stock: tuple[Holding, ...]
    debtors: tuple[Claim, ...]
    deposits: tuple[Claim, ...]
    approval: tuple[Claim, ...]
    creditors: tuple[Claim, ...]

    @property
    def stock_cost(self) -> int:
        """The stock at cost, in pence; a lot not split counts with what is left of its price."""
        return sum(each.cost or 0 for each in self.stock)


def standing_on(book: Book, day: str) -> DayStanding:
    """What there was at the end of a day, worked out from the days of what was noted."""
    sales = [sale for sale in book.ledger.sales.records() if begun(sale) <= day]
    return DayStanding(
        day=day,
        stock=tuple(_stock(book, day)),
        debtors=tuple(_debtors(book, sales, day)),
        deposits=tuple(_deposits(book, sales, day)),
        approval=tuple(_approval(book, sales, day)),
        creditors=tuple(_creditors(book, sales, day)),
    )


def begun(sale: Sale) -> str:
    """The day a sale began: goods went out, or the first of a deposit was paid."""
    paid = [each.date for each in sale.payments]
    return min([sale.went_out or sale.date, sale.date, *paid])


def _out_since(book: Book, day: str) -> dict[str, int]:
    """How often each piece had left by a day, less how often it had come back."""
    left: dict[str, int] = {}
    for sale in book.sales("0001-01-01", day):
        if not sale.allowance:
            for piece in sale.pieces:
                left[piece] = left.get(piece, 0) + (-1 if sale.refund_of else 1)
    return left


def _stock(book: Book, day: str) -> Iterator[Holding]:
    left = _out_since(book, day)
    for purchase in book.purchases("0001-01-01", day):
        there = [book.item(number) for number in purchase.items if left.get(number, 0) <= 0]
        whole = len(there) == len(purchase.items) > 1 and all(each.cost is None for each in there)
        for place, item in enumerate(there):
            lot = purchase.total_pence if whole and not place else None
            yield _holding(book, item, purchase.date, lot)
    for item in book.ledger.items.without_purchase("0001-01-01", day):
        if left.get(item.number, 0) <= 0:
            yield _holding(book, item, item.noted, None)


def _holding(book: Book, item: Item, bought: str, lot: int | None) -> Holding:
    remark = ""
    if lot is not None:
        remark = "the price of its whole lot, which is not split"
    elif item.cost is None:
        remark = "cost not known: its lot is not split" if item.purchase else "cost not known"
    elif item.status == "withdrawn":
        remark = "taken out by hand: say what became of it"
    cost = item.cost if lot is None else lot
    words = short_line(item, book.names)
    return Holding(item.number, words, bought, cost, item.scheme, item.asking, remark)


def _name(book: Book, key: str) -> str:
    person = book.ledger.people.find(key)
    return person.name or (f"erased on {person.erased}" if person.erased else "") if person else ""


def _paid_by(sale: Sale, day: str) -> int:
    return sum(each.pence for each in sale.made if each.date <= day)


def _debtors(book: Book, sales: list[Sale], day: str) -> Iterator[Claim]:
    """Complete sales not paid whole by the day, less what came back by then."""
    for sale in sales:
        if sale.status != "complete" or sale.refund_of or sale.date > day or not sale.went:
            continue
        back = [each for each in book.ledger.sales.refunds(sale.id) if each.date <= day]
        credited = sum(each.total_pence for each in back)
        paid = sum(_paid_by(each, day) for each in (sale, *back))
        if (owed := sale.total_pence - credited - paid) > 0:
            yield Claim(sale.id, sale.date, _name(book, sale.buyer), owed)


def _deposits(book: Book, sales: list[Sale], day: str) -> Iterator[Claim]:
    for sale in sales:
        over = sale.date <= day if sale.status == "complete" else bool(sale.ended) and sale.ended <= day
        if sale.refund_of or over or sale.status not in ("deposit", "complete", "cancelled"):
            continue
        if held := _paid_by(sale, day):
            words = ", ".join(sale.pieces)
            yield Claim(sale.id, begun(sale), _name(book, sale.buyer), held, words)


def _approval(book: Book, sales: list[Sale], day: str) -> Iterator[Claim]:
    """Goods out on approval at their prices: they are our stock still."""
    for sale in sales:
        out = sale.went_out if sale.status == "complete" else sale.date
        back = sale.date if sale.status == "complete" else sale.ended
        sent = sale.status == "on approval" or bool(sale.went_out) or sale.status == "returned"
        if sent and out <= day and (sale.status == "on approval" or not back or back > day):
            if sale.status == "returned" and not back:
                continue  # noted before the day of its return was kept
            yield Claim(sale.id, out, _name(book, sale.buyer), sale.total_pence, ", ".join(sale.pieces))


def _creditors(book: Book, sales: list[Sale], day: str) -> Iterator[Claim]:
    for purchase in book.purchases("0001-01-01", day):
        if owed := owed_on(purchase, day):
            yield Claim(purchase.id, purchase.date, _name(book, purchase.seller), owed, "bought")
    for sale in sales:
        if sale.refund_of and sale.date <= day:
            later = sum(each.pence for each in sale.made if each.date > day)
            if (owed := -sale.noted_owed - later) > 0:
                yield Claim(sale.id, sale.date, _name(book, sale.buyer), owed, "refund")


def owed_on(purchase: Purchase, day: str) -> int:
    """What was still owed to the seller at the end of a day, in pence."""
    if not purchase.payments:
        return purchase.total_pence if purchase.payment == "owed" else 0
    paid = sum(each.pence for each in purchase.payments if each.method != "owed" and each.date <= day)
    return max(0, purchase.total_pence - paid)
