"""After a sale was begun: the balance paid, approval kept or sent back, a return with its refund.

A sale is never rewritten into something else than happened: a refund is an entry of its own.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace as changed

from msgspec.structs import replace

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.money import PAYMENTS, Payment
from counter.store.records.sale import Sale, SaleLine
from counter.trade.cash_limit import cash_warning
from counter.trade.people import person_for
from counter.trade.selling import Sold, freeze, line_prices
from counter.trade.settings import Settings
from counter.values.errors import InputError, UserError
from counter.values.item import Item, Status
from counter.values.money import pounds


def to_pay(sale: Sale) -> int:
    """What is still owed on a sale, in pence."""
    return sale.total_pence - sum(each.pence for each in sale.payments if each.method != "owed")


def note_balance(
    settings: Settings, number: str, method: str, day: str, pence: int | None = None
) -> Sold:
    """Note a further payment; a deposit paid in full becomes the sale, on that day.

    `pence` None pays all that is owed.
    """
    sale = settings.ledger.sales.of(number)
    owed = to_pay(sale)
    paid = owed if pence is None else pence
    if sale.status not in ("deposit", "complete") or owed <= 0:
        raise UserError(f"Nothing is owed on {number}.")
    if not 0 < paid <= owed or method not in PAYMENTS or method == "owed":
        raise InputError(f"Pay between 1p and {pounds(owed)} by {', '.join(PAYMENTS[:4])}.")
    if day < sale.date:
        raise UserError(f"{number} was begun on {sale.date}; it cannot have been paid on {day}.")
    payments = [each for each in sale.payments if each.method != "owed"]
    payments.append(Payment(day, method, paid))
    left = owed - paid
    if left and sale.status == "complete":
        payments.append(Payment(day, "owed", left))
    sale = replace(sale, payments=tuple(payments))
    items: list[Item] = []
    if not left and sale.status == "deposit":
        items = _items(settings.ledger, sale)
        sale = replace(sale, status="complete", date=day, invoice_number=sale.id)
        sale = freeze(settings.ledger, settings.on(day), sale, items)
    warned = ""
    if method == "cash" and sale.buyer:
        warned = cash_warning(settings.ledger, settings.on(day), sale.buyer, paid, received=True)
    noted = _noted(settings, "payment noted", sale, items, "sold")
    return changed(noted, told=(warned,) if warned else ())


def keep_approval(
    settings: Settings, number: str, kept: Collection[str], day: str, method: str = "owed"
) -> Sold:
    """What the customer keeps of goods on approval is sold on that day; the rest is back in stock.

    With nothing kept the approval is closed as returned.
    """
    sale = settings.ledger.sales.of(number)
    if sale.status != "on approval":
        raise UserError(f"{number} is not on approval: it is {sale.status}.")
    if day < sale.date:
        raise UserError(f"{number} went out on {sale.date}; it cannot have come back on {day}.")
    _must_hold(sale, kept)
    items = _items(settings.ledger, sale)
    back = _free(settings.ledger, [each for each in items if each.number not in kept], number)
    changes = [_move(each, "in stock") for each in back]
    if not kept:
        closed = replace(sale, status="returned", reason=sale.reason or f"sent back {day}")
        return _noted(settings, "approval returned", closed, [], "in stock", changes)
    lines = tuple(line for line in sale.lines if line.item in kept)
    discount = sum(line.discount_pence for line in lines)
    total = sum(line.price_pence for line in lines) - discount + sale.postage_pence
    sale = replace(
        sale,
        lines=lines,
        discount_pence=discount,
        total_pence=total,
        status="complete",
        date=day,
        invoice_number=sale.id,
        payments=(Payment(day, method, total),) if total else (),
    )
    bought = [each for each in items if each.number in kept]
    return _noted(
        settings,
        "approval kept",
        freeze(settings.ledger, settings.on(day), sale, bought),
        bought,
        "sold",
        changes,
    )


def note_refund(
    settings: Settings, number: str, pieces: Collection[str], day: str, reason: str, method: str
) -> Sold:
    """Take pieces of a sale back (all when none is named) and pay their price back.

    The refund is a row of its own with the same figures, which the book takes off in the period of
    `day`; each piece returns to stock under its own number and cost, unless another sale holds it.
    """
    ledger = settings.ledger
    sale = ledger.sales.of(number)
    pieces = pieces or [line.item for line in sale.lines]
    _must_hold(sale, pieces)
    if sale.status != "complete" or sale.refund_of or not sale.went:
        raise UserError(f"{number} is not a complete sale, so nothing of it can be refunded.")
    if day < sale.date:
        raise UserError(f"{number} was sold on {sale.date}; it cannot have come back on {day}.")
    if not reason.strip() or method not in PAYMENTS:
        raise InputError("A refund needs a reason and how it was paid back.")
    again = ledger.sales.refunded(number) & set(pieces)
    if again:
        raise UserError(f"{', '.join(sorted(again))} of {number} was refunded already.")
    lines = tuple(line for line in sale.lines if line.item in pieces)
    refund = _refund(ledger.next_number("sales"), sale, lines, day)
    paid = refund.total_pence
    refund = replace(refund, reason=reason, payments=(Payment(day, method, -paid),) if paid else ())
    items = [item for item in _items(ledger, sale) if item.number in pieces]
    return _noted(settings, "refund", refund, _free(ledger, items, number), "in stock")


def _refund(number: str, sale: Sale, lines: tuple[SaleLine, ...], day: str) -> Sale:
    """The refunded part of a sale with its share of the postage, as a row of its own."""
    prices = line_prices(sale)
    net = sum(line.price_pence - line.discount_pence for line in lines)
    total = sum(prices[line.item] for line in lines)
    return Sale(
        id=number,
        date=day,
        lines=lines,
        discount_pence=sum(line.discount_pence for line in lines),
        postage_pence=total - net,
        total_pence=total,
        disposal=sale.disposal,
        buyer=sale.buyer,
        buyer_kind=sale.buyer_kind,
        vat_shown=sale.vat_shown,
        refund_of=sale.id,
    )


def cancel_deposit(settings: Settings, number: str, day: str, method: str, kept_pence: int = 0) -> Sold:
    """A reservation falls through: the pieces go back on sale, the deposit is paid back.

    What the dealer keeps of the deposit by agreement is `kept_pence`.
    """
    sale = settings.ledger.sales.of(number)
    paid = sum(each.pence for each in sale.payments if each.method != "owed")
    if sale.status != "deposit":
        raise UserError(f"{number} is not held on a deposit.")
    if day < sale.date:
        raise UserError(f"{number} was begun on {sale.date}; it cannot have fallen through on {day}.")
    if not 0 <= kept_pence <= paid or method not in PAYMENTS:
        raise InputError(
            f"Keep between nothing and {pounds(paid)}, and say how the rest was paid back."
        )
    back = (Payment(day, method, kept_pence - paid),) if paid > kept_pence else ()
    items = _free(settings.ledger, _items(settings.ledger, sale), number)
    sale = replace(
        sale, status="cancelled", payments=(*sale.payments, *back), reason=f"fell through {day}"
    )
    return _noted(settings, "reservation cancelled", sale, items, "in stock")


def name_buyer(settings: Settings, number: str, name: str) -> Sold:
    """Note who bought, where that was not said at the sale. Raises UserError when somebody is noted."""
    sale = settings.ledger.sales.of(number)
    if sale.buyer:
        raise UserError(f"{number} has its buyer, {sale.buyer}; complete that person instead.")
    buyer, changes = person_for(settings.ledger, name, sale.date)
    if buyer is None:
        raise InputError("Say the buyer's name, or the number of a person.")
    return _noted(settings, "buyer named", replace(sale, buyer=buyer.id), [], "sold", changes)


def _must_hold(sale: Sale, pieces: Collection[str]) -> None:
    strange = set(pieces) - {line.item for line in sale.lines}
    if strange:
        raise InputError(f"{', '.join(sorted(strange))} is not in {sale.id}.")


def _items(ledger: Ledger, sale: Sale) -> list[Item]:
    found = (ledger.items.find(piece) for piece in sale.pieces)
    return [item for item in found if item is not None]


def _free(ledger: Ledger, items: Collection[Item], number: str) -> list[Item]:
    """The pieces no other sale holds: one sold on two laptops stays sold when one is taken back."""
    return [
        each for each in items if all(sale.id == number for sale in ledger.sales.holding(each.number))
    ]


def _move(item: Item, status: Status) -> Change:
    return put(replace(item, status=status))


def _noted(
    settings: Settings,
    verb: str,
    sale: Sale,
    items: list[Item],
    status: Status,
    more: Collection[Change] = (),
) -> Sold:
    changes = (
        put(sale),
        *(_move(each, status) for each in items),
        *more,
    )
    settings.ledger.note(verb, changes)
    return Sold(sale, changes)
