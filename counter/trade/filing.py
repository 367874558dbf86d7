"""Returns as filed: frozen with what each deal came to, so that what was changed later can be listed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from msgspec.structs import replace

from counter.store.records.accounts import Filed, FiledDeal
from counter.store.records.check import put
from counter.store.records.sale import Sale
from counter.trade.settings import Settings
from counter.trade.stock_book import Book
from counter.trade.stock_book_totals import Totals, pooled, totals
from counter.trade.vat_scheme import line_prices
from counter.values.dates import day_words
from counter.values.errors import InputError, UserError
from counter.values.money import pounds


@dataclass(frozen=True, slots=True)
class LaterChange:
    """A deal of a filed period that comes to something else now; an empty one: not in it (any more)."""

    deal: str
    was: FiledDeal
    now: FiledDeal


@dataclass(frozen=True, slots=True)
class FiledRead:
    """A filed return, its totals as they are now, and the deals that make the difference."""

    filed: Filed
    now: Totals
    changes: tuple[LaterChange, ...]

    @property
    def boxes(self) -> tuple[tuple[str, int, int], ...]:
        """The boxes that moved: name, as filed, as now, in pence."""
        filed, now = self.filed, self.now
        every = (
            ("box 1", filed.box_1_pence, now.box_1 or 0),
            ("box 4", filed.box_4_pence, now.input_vat),
            ("box 6", filed.box_6_pence, now.box_6 or 0),
            ("box 7", filed.box_7_pence, now.box_7),
        )
        return tuple(each for each in every if each[1] != each[2])


def deal_sums(book: Book, since: str, until: str) -> dict[str, FiledDeal]:
    """What each deal of a period comes to in its return, by number."""
    found: dict[str, FiledDeal] = {}
    for sale in book.sales(since, until):
        _add(found, _sale_sums(book, sale))
    for line in book.deposits(since, until):
        sold, vat = line.selling_price or 0, line.vat_due or 0
        number = line.sales_invoice_number
        _add(found, FiledDeal(id=number, sold_pence=sold, vat_pence=vat))
    registered = book.settings.business.registered
    for bought in book.purchases(since, until):
        boxed = registered(bought.date)
        net = bought.total_pence - bought.vat_pence if boxed else 0
        vat, pool = bought.vat_pence if boxed else 0, -pooled(book, bought)
        _add(found, FiledDeal(id=bought.id, bought_pence=net, input_vat_pence=vat, pool_pence=pool))
    for purchase in book.ledger.purchases.with_money_back():
        for each in purchase.returned:
            if since <= each.date <= until and registered(each.date):
                _add(found, FiledDeal(id=purchase.id, bought_pence=-each.pence))
    for cost in book.ledger.accounts.costs.between(since, until):
        if registered(cost.date):
            net, vat = cost.pence - cost.vat_pence, cost.vat_pence
            _add(found, FiledDeal(id=cost.id, bought_pence=net, input_vat_pence=vat))
    return {key: each for key, each in found.items() if each != FiledDeal(id=key)}


def _sale_sums(book: Book, sale: Sale) -> FiledDeal:
    prices, sign = line_prices(sale), -1 if sale.refund_of else 1
    sold = vat = pool = 0
    for line in sale.lines:
        if sale.went and line.scheme != "none":
            sold += sign * prices[line.item]
            vat += sign * (line.vat_pence or 0)
        if line.scheme == "global" and sale.disposal == "sold":
            pool += sign * prices[line.item]
        elif "global" in (line.scheme, book.scheme(line.item)):
            pool += sign * (line.cost_pence or 0)
    return FiledDeal(id=sale.id, sold_pence=sold, vat_pence=vat, pool_pence=pool)


def _add(found: dict[str, FiledDeal], more: FiledDeal) -> None:
    known = found.get(more.id, FiledDeal(id=more.id))
    found[more.id] = replace(
        known,
        sold_pence=known.sold_pence + more.sold_pence,
        vat_pence=known.vat_pence + more.vat_pence,
        bought_pence=known.bought_pence + more.bought_pence,
        input_vat_pence=known.input_vat_pence + more.input_vat_pence,
        pool_pence=known.pool_pence + more.pool_pence,
    )


def file_return(book: Book, since: str, until: str, day: str, words: str = "") -> Filed:
    """Freeze the return of a period as it is filed on a day. Raises UserError; nothing is noted then."""
    if day <= until:
        raise InputError(f"The period ends on {until}; it cannot be filed on {day}.")
    if before := book.ledger.accounts.returns.over(since, until):
        known = before[0]
        raise UserError(f"{known.since} to {known.until} was filed on {known.date} as {known.id}.")
    sums = totals(book, since, until)
    if not sums.registered:
        raise UserError(f"You are not registered for VAT from {since} to {until}: nothing is filed.")
    if sums.box_1 is None or sums.box_6 is None:
        raise UserError("Global accounting is filed for whole VAT periods; say one of those.")
    filed = Filed(
        id=book.ledger.next_number("returns"),
        since=since,
        until=until,
        date=day,
        box_1_pence=sums.box_1,
        box_4_pence=sums.input_vat,
        box_6_pence=sums.box_6,
        box_7_pence=sums.box_7,
        deals=tuple(deal_sums(book, since, until).values()),
        words=words,
    )
    book.ledger.note("return filed", [put(filed)])
    return filed


def read_filed(book: Book, filed: Filed) -> FiledRead:
    """A filed return beside what its period comes to now."""
    now = deal_sums(book, filed.since, filed.until)
    was = {each.id: each for each in filed.deals}
    changes = tuple(
        LaterChange(key, was.get(key, FiledDeal(id=key)), now.get(key, FiledDeal(id=key)))
        for key in dict.fromkeys((*was, *now))
        if was.get(key) != now.get(key)
    )
    return FiledRead(filed, totals(book, filed.since, filed.until), changes)


def change_words(change: LaterChange) -> str:
    """A later change in a sentence: "WK-S1: VAT £0.00, now £7.50"."""
    names = ("sold", "VAT", "bought", "VAT on what was bought", "global accounting")
    moved = []
    for name, was, now in zip(names, _sums(change.was), _sums(change.now), strict=True):
        if was != now:
            moved.append(f"{name} {pounds(was)}, now {pounds(now)}")
    return f"{change.deal}: {'; '.join(moved)}"


def _sums(deal: FiledDeal) -> tuple[int, ...]:
    return (
        deal.sold_pence,
        deal.vat_pence,
        deal.bought_pence,
        deal.input_vat_pence,
        deal.pool_pence,
    )


def late_words(settings: Settings, *days: str) -> Iterator[str]:
    """What is to be told where something is noted into a filed return, or into a day that was closed."""
    for day in dict.fromkeys(days):
        for filed in settings.ledger.accounts.returns.over(day, day):
            yield (
                f"{day_words(day)} lies in the return filed on {day_words(filed.date)}: `counter filed` "
                f"lists what has changed in it since; ask HMRC how to correct it."
            )
        if any(each.kind == "day closed" for each in settings.ledger.cash.on(day)):
            yield f"{day_words(day)} was closed already: what its box should have held is another sum now."


def moved_words(settings: Settings, *days: str) -> Iterator[str]:
    """The boxes of filed returns over some days that come to another sum now, in sentences."""
    returns = settings.ledger.accounts.returns
    for filed in {each.id: each for day in days for each in returns.over(day, day)}.values():
        for box, was, now in read_filed(Book(settings, {}), filed).boxes:
            yield f"{filed.id}: {box} was filed as {pounds(was)}, is {pounds(now)}."
