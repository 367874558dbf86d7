"""The totals of a period: what goes into the return's boxes, and global accounting with its carry.

Margin-scheme VAT is the sum of the lines' rounded VAT, losses never offset; global accounting is
worked out once on the period; ordinary VAT is on the full price; unregistered there is none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from counter.store.records.purchase import Purchase
from counter.trade.stock_book import Book, BookLine
from counter.trade.terms import Terms
from counter.trade.vat_scheme import line_prices, of_opening_stock
from counter.values.days import day_before, months_later, years_later
from counter.values.money import pounds
from counter.values.vat import GlobalPeriod, global_period, vat_within

#: No closing adjustment where the VAT on the stock is this or less, in pence (rule "ga-closing").
_LET_OUT = 1_000_00


@dataclass(frozen=True, slots=True)
class Pool:
    """Global accounting of a period in pence: what went in and out, and its margin and VAT.

    `removed` is the cost of pieces that left the pool otherwise: exported, sold with VAT, kept, lost.
    Several VAT periods are their sum; `whole` is whether they are whole ones. `closing` is the stock given
    back on leaving (within `sales`).
    """

    purchases: int
    removed: int
    sales: int
    brought_forward: int
    worked: GlobalPeriod
    whole: bool = True
    closing: int = 0


@dataclass(frozen=True, slots=True)
class Totals:
    """Sums of a period in pence. Boxes 6 and 7 are declared in whole pounds.

    Boxes 1 and 6 are None where global accounting is asked for days that are not whole VAT periods.
    """

    bought: int
    sold: int
    profit: int
    losses: int
    vat_on_margins: int
    vat_on_full_prices: int
    pool: Pool | None
    input_vat: int
    box_1: int | None
    box_6: int | None
    box_7: int
    registered: bool


def totals(book: Book, since: str, until: str, lines: Sequence[BookLine] | None = None) -> Totals:
    """The totals from one day to another, both included; `lines` if they are worked out already."""
    sold = taxed = profit = losses = on_margins = on_full = 0
    for line in book.lines(since, until) if lines is None else lines:
        sold += line.selling_price or 0
        taxed += 0 if line.scheme == "none" else line.selling_price or 0
        if line.scheme == "margin":
            on_margins += line.vat_due or 0
        elif line.scheme == "ordinary":
            on_full += line.vat_due or 0
        gain = line.margin or 0
        if (gain < 0) != bool(line.refund_of):
            losses += gain
        else:
            profit += gain
    purchases = list(book.purchases(since, until))
    back = list(book.money_back(since, until))
    bought = sum(each.total_pence for each in purchases) - sum(each.pence for each in back)
    pool = global_pool(book, since, until)
    vat = on_margins + on_full + (pool.worked.vat if pool else 0)
    business = book.settings.business
    registered = business.registered_within(since, until)
    boxed = [each for each in purchases if business.registered(each.date)]
    costs = [
        each
        for each in book.ledger.accounts.costs.between(since, until)
        if business.registered(each.date)
    ]
    input_vat = sum(each.vat_pence for each in boxed) + sum(each.vat_pence for each in costs)
    box_7 = sum(each.total_pence for each in boxed) + sum(each.pence for each in costs) - input_vat
    box_7 -= sum(each.pence for each in back if business.registered(each.date))
    whole = pool is None or pool.whole
    return Totals(
        bought=bought,
        sold=sold,
        profit=profit,
        losses=losses,
        vat_on_margins=on_margins,
        vat_on_full_prices=on_full,
        pool=pool,
        input_vat=input_vat,
        box_1=vat if whole else None,
        box_6=(taxed - vat if registered else 0) if whole else None,
        box_7=box_7,
        registered=registered,
    )


def global_pool(book: Book, since: str, until: str) -> Pool | None:
    """Global accounting of a period, with what earlier VAT periods carry into it; None when unused.

    The opening stock's value counts as purchases of the first period (rule "ga-opening-stock").
    """
    start = book.settings.business.global_since or _first_global(book)
    ended = book.settings.business.global_until
    if not start or start > until or (ended and ended < since):
        return None
    step = book.settings.business.period_months
    carried = 0
    for first, last in _before(start, since, step):
        carried = _pool(book, first, last, carried).worked.carried_forward
    asked = list(_periods(since, until, step))
    whole = asked[-1][1] == until
    found = [each for each in asked if each[1] >= start]
    pools: list[Pool] = []
    for first, last in found:
        before = pools[-1].worked.carried_forward if pools else carried
        pools.append(_pool(book, max(first, start), min(last, until), before))
    pool = _together(pools, whole)
    return pool if pool.purchases or pool.sales or pool.removed or carried else None


def _together(pools: Sequence[Pool], whole: bool) -> Pool:
    """Several VAT periods as the sum of what each came to."""
    last = pools[-1].worked
    margin, vat = sum(each.worked.margin for each in pools), sum(each.worked.vat for each in pools)
    return Pool(
        sum(each.purchases for each in pools),
        sum(each.removed for each in pools),
        sum(each.sales for each in pools),
        pools[0].brought_forward,
        GlobalPeriod(margin, margin - pools[0].brought_forward, vat, last.carried_forward),
        whole,
        sum(each.closing for each in pools),
    )


def _first_global(book: Book) -> str:
    days = (
        each.date
        for each in book.purchases("0001-01-01", "9999-12-31")
        if any(book.scheme(number) == "global" for number in each.items)
    )
    return min(days, default="")


def _periods(since: str, until: str, step: int) -> Iterable[tuple[str, str]]:
    """The VAT periods of so many months from a day until another is reached."""
    count, first = 0, since
    while first <= until:
        count += step
        following = months_later(since, count)
        yield first, day_before(following)
        first = following


def _before(start: str, since: str, step: int) -> Iterable[tuple[str, str]]:
    """The periods that end before a day, back to the one in which global accounting began."""
    found, count, following = list[tuple[str, str]](), 0, since
    while start < following:
        count -= step
        first = max(start, months_later(since, count))
        found.append((first, day_before(following)))
        following = first
    return reversed(found)


def _pool(book: Book, since: str, until: str, brought_forward: int) -> Pool:
    """One VAT period; where the rate changes within it, each part at its own rate."""
    pools: list[Pool] = []
    changes = [day for day in book.settings.rate_days() if since < day <= until]
    for first, following in pairwise([since, *changes, months_later(until, 1)]):
        last = min(day_before(following), until)
        before = pools[-1].worked.carried_forward if pools else brought_forward
        pools.append(_pool_at_one_rate(book, first, last, before))
    return _together(pools, True)


def _pool_at_one_rate(book: Book, since: str, until: str, brought_forward: int) -> Pool:
    terms = book.settings.on(until)
    business = terms.business
    purchases = sum(pooled(book, each) for each in book.purchases(since, until))
    if business.global_since and since <= business.global_since <= until:
        purchases += business.opening_stock_pence
    sales = removed = 0
    for sale in book.sales(since, until):
        prices, sign = line_prices(sale), -1 if sale.refund_of else 1
        for line in sale.lines:
            if line.scheme == "global" and sale.disposal == "sold":
                sales += sign * prices[line.item]
            elif "global" in (line.scheme, book.scheme(line.item)):
                removed += sign * (line.cost_pence or 0)
    closing = _closing(book, terms) if since <= business.global_until <= until else 0
    sales += closing
    worked = global_period(purchases - removed, sales, brought_forward, terms.vat.part)
    return Pool(purchases, removed, sales, brought_forward, worked, closing=closing)


def _closing(book: Book, terms: Terms) -> int:
    """The purchase value of the scheme's stock on its last day, given back as sales (rule "ga-closing").

    Nothing where the VAT on it would be GBP 1,000 or less.
    """
    day, left = terms.business.global_until, Counter[str]()
    for sale in book.sales("0001-01-01", day):
        if not sale.allowance:
            left.update({piece: -1 if sale.refund_of else 1 for piece in sale.pieces})
    stock = 0
    for purchase in book.purchases("0001-01-01", day):
        there = [book.item(number) for number in purchase.items if left[number] <= 0]
        pooled_ = [each for each in there if each.scheme == "global" or of_opening_stock(terms, each)]
        if len(there) == len(purchase.items) == len(pooled_) and all(x.cost is None for x in there):
            stock += purchase.total_pence
        stock += sum(each.cost or 0 for each in pooled_)
    for item in book.ledger.items.without_purchase("0001-01-01", day):
        stock += item.cost or 0 if left[item.number] <= 0 and of_opening_stock(terms, item) else 0
    return stock if vat_within(stock, terms.vat.part) > _LET_OUT else 0


def pooled(book: Book, purchase: Purchase) -> int:
    """What a purchase puts into the pool; a lot not split yet counts whole when all of it is in."""
    cost = book.ledger.items.cost
    costs = [cost(number) for number in purchase.items if book.scheme(number) == "global"]
    if len(costs) == len(purchase.items) and all(each is None for each in costs):
        return purchase.total_pence
    return sum(each or 0 for each in costs)


def turnover(book: Book, day: str) -> int:
    """Full selling prices of the twelve months to a day, in pence (rule "registration-turnover")."""
    since = (date.fromisoformat(years_later(day, -1)) + timedelta(days=1)).isoformat()
    sold = book.kept_of_deposits(since, day)
    for sale in book.sales(since, day):
        if sale.went:
            sold += (-1 if sale.refund_of else 1) * sum(line_prices(sale).values())
    return sold


def registration_warning(book: Book, day: str) -> str:
    """One sentence when an unregistered dealer's turnover comes near the limit; else ""."""
    terms = book.settings.on(day)
    limit = terms.limits.get("vat-registration")
    if limit is None or terms.registered:
        return ""
    made = turnover(book, day)
    if made * 5 < limit.amount * 4:  # said from four fifths on
        return ""
    way = "is over" if limit.reached(made) else "comes near"
    return (
        f"Turnover of the last twelve months, {pounds(made)}, {way} the limit for VAT registration, "
        f"{pounds(limit.amount)} (since {limit.since}); full prices count, not margins: ask HMRC."
    )
