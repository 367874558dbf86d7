"""A year (or any period) for the accountant: profit by scheme, own use, costs, its VAT periods."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from counter.store.records.accounts import Filed
from counter.store.records.sale import Sale
from counter.trade.filing import read_filed
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import Totals, totals
from counter.trade.vat_scheme import line_prices
from counter.values.days import day_before, months_later
from counter.values.periods import period_of

#: How goods leave that are not sold, where the accountant wants their cost.
_OWN_USE, _LOST = "kept", ("lost", "stolen", "destroyed")


@dataclass(frozen=True, slots=True)
class SchemeProfit:
    """What was sold under a scheme, in pence: the sales less what came back, their cost, the VAT.

    `open` counts the lines whose cost is not known yet: their whole price stands as profit.
    """

    scheme: str
    sales: int
    cost: int
    vat: int
    open: int = 0

    @property
    def profit(self) -> int:
        """What was left after VAT."""
        return self.sales - self.cost - self.vat


@dataclass(frozen=True, slots=True)
class PeriodBoxes:
    """A VAT period with its totals, and how it was filed; `moved`: other sums hold now."""

    since: str
    until: str
    sums: Totals
    filed: Filed | None = None
    moved: bool = False


@dataclass(frozen=True, slots=True)
class Written:
    """Goods that left without a sale: day, piece, how, cost in pence (None: not known)."""

    date: str
    deal: str
    item: str
    how: str
    cost: int | None


@dataclass(frozen=True, slots=True)
class Year:
    """A period as its accountant wants it; sums in pence. `costs` are without the VAT one gets back."""

    since: str
    until: str
    schemes: tuple[SchemeProfit, ...]
    deposits_kept: int
    own_use: tuple[Written, ...]
    lost: tuple[Written, ...]
    costs: dict[str, int]
    periods: tuple[PeriodBoxes, ...]
    numbers: tuple[tuple[str, str], ...]

    @property
    def gross(self) -> int:
        """The profit on what was sold, with what was kept of deposits."""
        return sum(each.profit for each in self.schemes) + self.deposits_kept

    @property
    def net(self) -> int:
        """The profit less the goods lost and the costs noted here; own use is the accountant's."""
        gone = sum(each.cost or 0 for each in self.lost)
        return self.gross - gone - sum(self.costs.values())

    def box(self, name: str) -> int | None:
        """The sum of a box over the VAT periods; None where one of them has none."""
        found = [getattr(each.sums, name) for each in self.periods]
        return None if None in found else sum(found)


def read_year(book: Book, since: str, until: str) -> Year:
    """Work a period out. Its VAT periods are those that end within it."""
    gone, periods = list(_written_off(book, since, until)), tuple(_periods(book, since, until))
    return Year(
        since,
        until,
        schemes=tuple(_schemes(book, since, until, periods)),
        deposits_kept=_deposits_kept(book, since, until),
        own_use=tuple(each for each in gone if each.how == _OWN_USE),
        lost=tuple(each for each in gone if each.how in _LOST),
        costs=_costs(book, since, until),
        periods=periods,
        numbers=tuple(numbers_without_invoice(book, since, until)),
    )


def _schemes(
    book: Book, since: str, until: str, periods: Sequence[PeriodBoxes]
) -> Iterator[SchemeProfit]:
    """By the scheme frozen in each line; global accounting's VAT is that of its periods."""
    sales, cost, vat, open_ = Counter[str](), Counter[str](), Counter[str](), Counter[str]()
    for sale in book.sales(since, until):
        if not sale.went:
            continue
        prices, sign = line_prices(sale), -1 if sale.refund_of else 1
        for line in sale.lines:
            sales[line.scheme] += sign * prices[line.item]
            cost[line.scheme] += sign * (line.cost_pence or 0)
            vat[line.scheme] += sign * (line.vat_pence or 0)
            open_[line.scheme] += line.cost_pence is None and not sale.allowance
    if "global" in sales:
        vat["global"] = sum(each.sums.pool.worked.vat for each in periods if each.sums.pool)
    for scheme in sorted(sales):
        yield SchemeProfit(scheme, sales[scheme], cost[scheme], vat[scheme], open_[scheme])


def _deposits_kept(book: Book, since: str, until: str) -> int:
    """What was kept of deposits that fell through, less its VAT."""
    kept = (sale.forfeit for sale in book.ledger.sales.taxed() if sale.forfeit)
    return sum(each.pence - each.vat_pence for each in kept if since <= each.date <= until)


def _written_off(book: Book, since: str, until: str) -> Iterator[Written]:
    for sale in book.sales(since, until):
        if sale.disposal == _OWN_USE or sale.disposal in _LOST:
            for line in sale.lines:
                yield Written(sale.date, sale.id, line.item, sale.disposal, line.cost_pence)


def _costs(book: Book, since: str, until: str) -> dict[str, int]:
    """The costs by category, without VAT on the days when it is got back."""
    found: Counter[str] = Counter()
    for cost in book.ledger.accounts.costs.between(since, until):
        back = cost.vat_pence if book.settings.business.registered(cost.date) else 0
        found[cost.category] += cost.pence - back
    return dict(sorted(found.items()))


def _periods(book: Book, since: str, until: str) -> Iterator[PeriodBoxes]:
    """The VAT periods that end between two days, each worked out for itself."""
    step = book.settings.business.period_months
    first, last = period_of(since, step)
    while last <= until:
        sums = totals(book, first, last)
        over = book.ledger.accounts.returns.over(first, last)
        filed = next((each for each in over if (each.since, each.until) == (first, last)), None)
        moved = bool(filed and read_filed(book, filed).boxes)
        yield PeriodBoxes(first, last, sums, filed, moved)
        first = months_later(first, step)
        last = day_before(months_later(first, step))


def numbers_without_invoice(book: Book, since: str, until: str) -> Iterator[tuple[str, str]]:
    """Numbers of the series that are no invoice or no piece (any more), and why: gaps to explain."""
    for sale in book.ledger.sales.records():
        if since <= sale.date <= until and not sale.invoice_number:
            yield sale.id, _why_none(sale)
    for purchase in book.purchases("0001-01-01", until):
        split = purchase.split
        if split and since <= split.date <= until:
            gone = book.ledger.items.of_purchase(purchase.id) - set(purchase.items)
            for number in sorted(gone):
                yield number, f"broken up on {split.date} into {', '.join(purchase.items)}"


def _why_none(sale: Sale) -> str:
    if sale.refund_of:
        return f"{'allowance on' if sale.allowance else 'refund of'} {sale.refund_of}"
    return sale.disposal if sale.status == "complete" else sale.status
