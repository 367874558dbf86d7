"""The day's close: takings by payment, purchases, what should be in the box, profit, what is owed."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from counter.store.records.check import put
from counter.store.records.money import Foreign
from counter.store.records.shop import Cash
from counter.trade.stock_book import Book
from counter.trade.vat_scheme import line_prices
from counter.values.errors import InputError, UserError
from counter.values.money import pounds
from counter.values.visible import how_many

#: Cash lines that say what was in the box when the day began.
_OPENING = "float"


@dataclass(frozen=True, slots=True)
class BoxLine:
    """Cash in or out of the box (then negative) besides trade: an expense, money banked or drawn."""

    kind: str
    pence: int
    words: str = ""

    def said(self) -> str:
        """In words: "expense, table fee"."""
        return f"{self.kind}, {self.words}" if self.words else self.kind


@dataclass(frozen=True, slots=True)
class Day:
    """A day in pence. `takings` and `paid_out` are by payment; refunds are taken off the takings.

    `sales` and `refunds` are counted apart; `sold` is what the sales came to less the refunds. `cash`
    is what else went in and out of the box.

    `box` is what the cash box should hold; `counted` what it did hold, once closed. `profit` is of
    the day's complete sales, after VAT on their lines (global accounting's VAT comes per period).
    `kept` is what was kept of deposits that fell through.
    """

    date: str
    sales: int
    refunds: int
    sold: int
    takings: dict[str, int]
    purchases: int
    bought: int
    paid_out: dict[str, int]
    opening: int
    cash: tuple[BoxLine, ...]
    box: int
    counted: int | None
    profit: int
    owed: tuple[tuple[str, tuple[str, ...]], ...]
    kept: int = 0

    @property
    def traded(self) -> str:
        """How many sales and refunds: "2 sales", "1 sale, 1 refund"."""
        refunds = [how_many(self.refunds, "refund")] if self.refunds else []
        return ", ".join([how_many(self.sales, "sale"), *refunds])

    @property
    def other_cash(self) -> int:
        """What went into the box besides trade, less what went out; the float apart."""
        return sum(line.pence for line in self.cash)

    @property
    def difference(self) -> int | None:
        """What was counted above (or below) what should be there."""
        return None if self.counted is None else self.counted - self.box


def look_at_day(book: Book, day: str) -> Day:
    """The day as noted so far."""
    takings, paid_out = _takings(book, day), _paid_out(book, day)
    opening, cash, in_box = _cash_lines(book, day)
    sales = [sale for sale in book.sales(day, day) if sale.went]
    bought = list(book.purchases(day, day))
    return Day(
        date=day,
        sales=sum(1 for sale in sales if not sale.refund_of),
        refunds=sum(1 for sale in sales if sale.refund_of),
        sold=sum((-1 if sale.refund_of else 1) * sum(line_prices(sale).values()) for sale in sales),
        takings=dict(sorted(takings.items())),
        purchases=len(bought),
        bought=sum(each.total_pence for each in bought),
        paid_out=dict(sorted(paid_out.items())),
        opening=opening,
        cash=cash,
        box=opening + takings["cash"] - paid_out["cash"] + sum(line.pence for line in cash),
        counted=in_box,
        profit=_profit(book, day),
        owed=tuple((purchase.id, owed) for purchase, owed in book.ledger.purchases.incomplete()),
        kept=book.kept_of_deposits(day, day),
    )


def _takings(book: Book, day: str) -> Counter[str]:
    """Every payment of the day, deposits and balances of other days' sales included."""
    takings: Counter[str] = Counter()
    for sale in book.ledger.sales.records():
        for payment in sale.made:
            if payment.date == day:
                takings[_way(payment.method, sale.foreign)] += payment.pence
    return takings


def _way(method: str, foreign: Foreign | None) -> str:
    """A way to pay; cash of a deal agreed in another currency is no sterling and not of the box."""
    return f"cash in {foreign.currency}" if foreign and method == "cash" else method


def _paid_out(book: Book, day: str) -> Counter[str]:
    paid: Counter[str] = Counter()
    for purchase in book.ledger.purchases.records():
        if purchase.cancelled:
            continue
        for payment in purchase.payments:
            if payment.date == day:
                paid[_way(payment.method, purchase.foreign)] += payment.pence
        for payment in purchase.returned:
            if payment.date == day:
                paid[payment.method] -= payment.pence
        if not purchase.payments and purchase.date == day:
            paid[_way(purchase.payment, purchase.foreign) or "not noted"] += purchase.total_pence
    return paid


def _cash_lines(book: Book, day: str) -> tuple[int, tuple[BoxLine, ...], int | None]:
    """The float, whatever else was noted of the box, and what was counted at the close."""
    opening, in_box = 0, None
    other: list[BoxLine] = []
    for line in book.ledger.cash.on(day):
        if line.kind == "day closed":
            in_box = line.pence
        elif line.kind == _OPENING:
            opening += line.pence
        elif line.kind != "difference":
            other.append(BoxLine(line.kind, line.pence, line.words))
    other += [
        BoxLine("cost", -cost.pence, cost.words or cost.category)
        for cost in book.ledger.accounts.costs.between(day, day)
        if cost.method == "cash"
    ]
    return opening, tuple(other), in_box


def _profit(book: Book, day: str) -> int:
    profit = 0
    for line in book.lines(day, day):
        if line.sale_date == day and line.selling_price is not None:
            profit += line.selling_price - (line.purchase_price or 0) - (line.vat_due or 0)
    return profit


def note_cash(book: Book, kind: str, pence: int, day: str, words: str = "") -> Cash:
    """Note the float, an expense, money banked or drawn; out of the box is negative."""
    number = book.ledger.next_number("cash")
    cash = Cash(number, day, kind, pence, words=words)
    book.ledger.note(f"cash: {kind}", [put(cash)])
    return cash


def close_day(book: Book, day: str, counted: int) -> Day:
    """Note what the box held at the end of a day, once. Raises UserError when it is closed already."""
    so_far = look_at_day(book, day)
    if so_far.counted is not None:
        raise UserError(f"{day} was closed already with {pounds(so_far.counted)} in the box.")
    if counted < 0:
        raise InputError("What was counted in the box cannot be negative.")
    number = book.ledger.next_number("cash")
    closed = Cash(number, day, "day closed", counted, expected_pence=so_far.box)
    book.ledger.note("day closed", [put(closed)])
    return look_at_day(book, day)


def day_text(day: Day, *, costs: bool = True) -> str:
    """The day's close in plain text; without `costs` nothing of what was paid for stock or earned."""
    rows = [f"Day {day.date}", f"{day.traded}: {pounds(day.sold)}"]
    rows += [f"  taken by {method:<10}{pounds(pence):>12}" for method, pence in day.takings.items()]
    rows += [f"Kept of deposits {pounds(day.kept)}"] if day.kept else []
    spent = f": {pounds(day.bought)}" if costs else ""
    rows.append(how_many(day.purchases, "purchase") + spent)
    paid = day.paid_out if costs else {}
    rows += [f"  paid by {method:<11}{pounds(pence):>12}" for method, pence in paid.items()]
    rows.append(f"Float {pounds(day.opening)}")
    rows += [f"  {line.said():<19}{pounds(line.pence):>12}" for line in day.cash]
    rows.append(f"The box should hold {pounds(day.box)}")
    if day.counted is not None and day.difference is not None:
        rows.append(f"Counted {pounds(day.counted)}, difference {pounds(day.difference)}")
    rows += [f"Profit {pounds(day.profit)} after VAT on the lines sold"] if costs else []
    rows += [f"Still owed on {number}: {', '.join(owed)}" for number, owed in day.owed]
    return "\n".join(rows)
