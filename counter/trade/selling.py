"""Selling: a sale, a deposit, goods on approval, a part exchange (two deals), other ways out.

What each line cost, its scheme and its VAT are frozen in the sale on the day it is complete.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from msgspec.structs import replace as changed

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.money import Foreign, Payment, way_to_pay
from counter.store.records.sale import DISPOSALS, Sale, SaleLine
from counter.trade.buying import Deal, prepare_purchase
from counter.trade.cash_limit import ask_alike, check_cash
from counter.trade.deposit_tax import deposit_tax
from counter.trade.filing import late_words
from counter.trade.people import like_words, person_for
from counter.trade.settings import Settings
from counter.trade.terms import Terms, rate_words
from counter.trade.vat_scheme import account_for, floor_price, line_prices, scheme_when_sold
from counter.values.days import read_day
from counter.values.errors import InputError, UserError
from counter.values.item import Item, Status
from counter.values.money import pounds, share

_SELLABLE = ("in stock", "reserved")
_STATUS_OF: dict[str, Status] = {
    "complete": "sold",
    "deposit": "reserved",
    "on approval": "on approval",
}


@dataclass(frozen=True, slots=True)
class Wanted:
    """One piece of a sale: its stock number, the price before discount, the words it is sold by."""

    item: str
    price_pence: int
    words: str = ""


@dataclass(frozen=True, slots=True)
class Order:
    """What is being sold, in pence. `payments` are (method, pence); what they leave is owed.

    `status` is complete, deposit or on approval (`due_back`: until when). `vat_shown` puts ordinary
    VAT on the whole invoice. `quote` is the quote it was taken from.
    """

    day: str
    lines: tuple[Wanted, ...]
    discount_pence: int = 0
    payments: tuple[tuple[str, int], ...] = ()
    postage_pence: int = 0
    buyer: str = ""
    buyer_kind: str = ""
    status: str = "complete"
    disposal: str = "sold"
    due_back: str = ""
    vat_shown: bool = False
    foreign: Foreign | None = None
    quote: str = ""
    terms: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class Sold:
    """A noted sale with its rows and what the dealer should be told."""

    sale: Sale
    changes: tuple[Change, ...]
    told: tuple[str, ...] = ()


def note_sale(settings: Settings, order: Order) -> Sold:
    """Note a sale in one entry. Raises UserError; then nothing changed."""
    sold = prepare_sale(settings, order)
    settings.ledger.note(f"{order.disposal} ({order.status})", sold.changes)
    return sold


def note_exchange(settings: Settings, order: Order, taken: Deal) -> tuple[Sold, str]:
    """A part exchange: a sale and a purchase, each at its full price, in one entry.

    Returns the sale and the purchase's number. The allowance is the purchase's price, and pays so
    much of the sale; the two are never netted (rule "part-exchange-two-deals"). Goods worth more than
    what is sold are paid in parts, one of them "exchange".
    """
    goods = sum(pence for way, pence in taken.parts if way == "exchange")
    allowance = ("exchange", goods if taken.parts else taken.total_pence)
    ledger = settings.ledger
    number = ledger.next_number("sales")
    bought = prepare_purchase(
        settings, replace(taken, payment="exchange", seller=order.buyer), exchange_sale=number
    )
    sold = prepare_sale(settings, replace(order, payments=(*order.payments, allowance)), number)
    sale = changed(sold.sale, exchange_purchase=bought.purchase.id)
    changes = [each for each in sold.changes if each.table != "sales"]
    people = {each.key for each in bought.changes if each.table == "people"}
    if people:  # the buyer is new: the purchase's change notes them, and both deals know that id
        key = people.pop()
        changes = [each for each in changes if each.table != "people"]
        sale = changed(sale, buyer=key)
    changes.append(put(sale))
    ledger.note("part exchange", [*bought.changes, *changes])
    return Sold(sale, (*bought.changes, *changes), (*bought.told, *sold.told)), bought.purchase.id


def prepare_sale(settings: Settings, order: Order, number: str = "") -> Sold:
    """The rows of a sale, not noted yet. Raises UserError in one sentence."""
    ledger = settings.ledger
    _check(order)
    terms = settings.on(order.day)
    items = [sellable(ledger, wanted.item, order.day) for wanted in order.lines]
    order, came_back = _money_back(ledger, order, items)
    lines = _lines(order)
    total = sum(each.price_pence for each in lines) - order.discount_pence + order.postage_pence
    paid = _payments(order, total)
    buyer, changes = person_for(ledger, order.buyer, order.day)
    cash = sum(pence for method, pence in order.payments if method == "cash")
    ask_alike(ledger, terms, buyer, cash, received=True)
    warned = check_cash(ledger, terms, buyer.id if buyer else "", cash, received=True)
    number = number or ledger.next_number("sales")
    sale = Sale(
        id=number,
        date=order.day,
        lines=lines,
        status=order.status,
        disposal=order.disposal,
        payments=paid,
        postage_pence=order.postage_pence,
        discount_pence=order.discount_pence,
        total_pence=total,
        foreign=order.foreign,
        buyer=buyer.id if buyer else "",
        buyer_kind=order.buyer_kind,
        invoice_number=number if order.status == "complete" and order.disposal == "sold" else "",
        vat_shown=order.vat_shown,
        due_back=order.due_back,
        quote=order.quote,
        terms=order.terms,
        words=order.words,
    )
    if sale.status == "complete":
        sale = freeze(ledger, terms, sale, items)
    elif sale.status == "deposit":
        sale = deposit_tax(terms, sale, items)
    changes += [put(sale), *came_back]
    changes += _moved(items, _status_after(sale))
    changes += _quote_taken(ledger, order.quote, number)
    told = [warned, *_below_floor(terms, sale, items), *_reminders(terms, sale)]
    told += [rate_words(order.foreign, order.day)]
    told += [*late_words(settings, order.day), *like_words(ledger, buyer)]
    return Sold(sale, tuple(changes), tuple(each for each in told if each))


def _lines(order: Order) -> tuple[SaleLine, ...]:
    """The lines of a sale, a discount shared over their prices."""
    prices = [wanted.price_pence for wanted in order.lines]
    discounts = share(order.discount_pence, prices) if order.discount_pence else [0] * len(prices)
    return tuple(
        SaleLine(wanted.item, wanted.price_pence, off, words=wanted.words)
        for wanted, off in zip(order.lines, discounts, strict=True)
    )


def _money_back(ledger: Ledger, order: Order, items: Sequence[Item]) -> tuple[Order, list[Change]]:
    """What the seller pays back for a piece that returns to them is noted with its purchase."""
    if order.disposal != "returned to seller" or not order.payments:
        return order, []
    bought = ledger.purchases.find(items[0].purchase) if len(items) == 1 else None
    if bought is None:
        raise InputError("Money back is noted for one piece of a purchase at a time.")
    back = sum(pence for _, pence in order.payments)
    left = bought.total_pence - sum(each.pence for each in bought.returned)
    if back > left:
        raise InputError(f"{pounds(back)} is more than the {pounds(left)} that {bought.id} cost.")
    made = tuple(
        Payment(order.day, method, pence, words=items[0].number) for method, pence in order.payments
    )
    changed_ = changed(bought, returned=(*bought.returned, *made))
    return replace(order, payments=()), [put(changed_)]


#: What tells of a floor is the dealer's own and is shown behind the costs alone.
BELOW_FLOOR = "below its floor"


def _below_floor(terms: Terms, sale: Sale, items: Sequence[Item]) -> Iterator[str]:
    """A discount may go below the floor, but not unseen."""
    if sale.disposal != "sold":
        return
    prices = line_prices(sale)
    for item in items:
        floor = floor_price(terms, item)
        if floor is not None and prices[item.number] < floor:
            price = pounds(prices[item.number])
            yield f"{item.number} goes for {price}, {BELOW_FLOOR} {pounds(floor)}."


def _reminders(terms: Terms, sale: Sale) -> Iterator[str]:
    """What the rules want minded, where they are not settled by a sum."""
    if not terms.registered:
        return
    if sale.status == "deposit":
        yield (
            "VAT on a deposit under the margin scheme is due from what passes the cost on (VATMARG13500), "
            "on a full price from the first penny: ask HMRC or an accountant."
        )
    if sale.status == "on approval":
        yield "No sale until it is kept; VAT is due then, at the latest after twelve months: ask HMRC."
    if sale.disposal == "exported":
        yield "Keep the proof of export with the invoice, or VAT stays due: check with HMRC."
    if sale.disposal in ("lost", "stolen", "destroyed", "kept"):
        yield "Goods that leave without a sale may still bear VAT: check with HMRC or an accountant."


def _status_after(sale: Sale) -> Status:
    if sale.went:
        return _STATUS_OF[sale.status]
    return "returned" if sale.disposal == "returned to seller" else "withdrawn"


def _check(order: Order) -> None:
    read_day(order.day)
    if not order.lines:
        raise InputError("Say which stock number is sold.")
    if order.status not in _STATUS_OF or order.disposal not in DISPOSALS:
        raise InputError(f"{order.status} / {order.disposal} is not a way to sell.")
    amounts = [each.price_pence for each in order.lines] + [order.discount_pence, order.postage_pence]
    if any(each < 0 for each in (*amounts, *(pence for _, pence in order.payments))):
        raise InputError("A price, a discount, postage and a payment cannot be negative.")
    if order.discount_pence > sum(each.price_pence for each in order.lines):
        raise InputError("The discount is more than the pieces cost together.")
    for method, _ in order.payments:
        way_to_pay(method)
    if order.status == "on approval" and order.due_back < order.day:
        raise InputError("Goods on approval need a day by which they are due back.")


def sellable(ledger: Ledger, number: str, day: str) -> Item:
    """A piece that may leave on a day: there, not sold, and bought by then. Raises UserError."""
    item = ledger.items.of(number)
    if item.status not in _SELLABLE:
        raise UserError(f"{number} is {item.status}, so it cannot be sold again; nothing was noted.")
    if item.status == "reserved" and (held := _held_by(ledger, number)):
        raise UserError(f"{number} is held on a deposit in {held}; settle or cancel that first.")
    bought = ledger.purchases.find(item.purchase)
    since = bought.date if bought else item.noted
    if day < since:
        raise UserError(f"{number} was bought on {since}; it cannot have been sold on {day}.")
    return item


def _held_by(ledger: Ledger, number: str) -> str:
    held = (sale.id for sale in ledger.sales.holding(number) if sale.status == "deposit")
    return next(held, "")


def _payments(order: Order, total: int) -> tuple[Payment, ...]:
    paid = sum(pence for _, pence in order.payments)
    if paid > total:
        raise InputError(f"{pounds(paid)} is more than the {pounds(total)} to pay.")
    made = [Payment(order.day, method, pence) for method, pence in order.payments if pence]
    if order.status == "complete" and paid < total:
        made.append(Payment(order.day, "owed", total - paid))
    return tuple(made)


def freeze(ledger: Ledger, terms: Terms, sale: Sale, items: Sequence[Item]) -> Sale:
    """The sale with cost, scheme, VAT fraction and VAT written into each line for good."""
    prices, lines = line_prices(sale), []
    for line, item in zip(sale.lines, items, strict=True):
        scheme = "ordinary" if sale.vat_shown else scheme_when_sold(terms, item)
        done = account_for(
            terms,
            scheme,
            seller_kind_of(ledger, item),
            item.cost,
            prices[line.item],
            exported=sale.disposal == "exported",
        )
        lines.append(
            changed(
                line,
                scheme=done.scheme,
                cost_pence=item.cost,
                vat_fraction=done.fraction,
                vat_pence=done.vat,
            )
        )
    return changed(sale, lines=tuple(lines))


def seller_kind_of(ledger: Ledger, item: Item) -> str:
    """The VAT standing of who a piece was bought from; "" when not known."""
    bought = ledger.purchases.find(item.purchase)
    return bought.seller_kind if bought else ""


def _moved(items: Sequence[Item], status: Status) -> list[Change]:
    return [put(changed(each, status=status)) for each in items]


def _quote_taken(ledger: Ledger, number: str, sale: str) -> list[Change]:
    if not number:
        return []
    return [put(changed(ledger.quotes.of(number), status="taken", sale=sale))]
