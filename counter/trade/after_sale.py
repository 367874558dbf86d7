"""After a sale was begun: the balance paid, a deposit handed over or ended, approval kept or sent back.

A sale is never rewritten into something else than happened.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace as changed

from msgspec.structs import replace

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.money import Payment
from counter.store.records.sale import Sale
from counter.trade.cash_limit import check_cash
from counter.trade.deposit_tax import deposit_tax, with_deposit_vat
from counter.trade.deposits import fallen_through, forfeit_words
from counter.trade.filing import late_words
from counter.trade.people import person_for
from counter.trade.refunds import free_again, must_hold, part_of, pay_refund, to_pay
from counter.trade.selling import Sold, freeze
from counter.trade.settings import Settings
from counter.values.days import years_later
from counter.values.errors import InputError, UserError
from counter.values.item import Item, Status


def note_balance(
    settings: Settings, number: str, method: str, day: str, pence: int | None = None
) -> Sold:
    """Note a further payment; a deposit paid in full becomes the sale, on that day.

    `pence` None pays all that is owed. On a refund it pays out what that still owes.
    """
    sale = settings.ledger.sales.of(number)
    if sale.refund_of:
        return pay_refund(settings, sale, method, day, pence)
    owed = to_pay(sale, settings.ledger.sales.refunds(number))
    if sale.status == "deposit" and not owed:
        raise UserError(f"{number} is paid in full; say that it was handed over.")
    if sale.status not in ("deposit", "complete") or owed <= 0:
        raise UserError(f"Nothing is owed on {number}.")
    paid = part_of("Pay", owed, pence, method)
    if day < sale.date:
        raise UserError(f"{number} was begun on {sale.date}; it cannot have been paid on {day}.")
    payments = [*sale.made, Payment(day, method, paid)]
    left = owed - paid
    if left and sale.status == "complete":
        payments.append(Payment(day, "owed", left))
    sale = replace(sale, payments=tuple(payments))
    items: list[Item] = []
    terms = settings.on(day)
    if sale.status == "deposit" and left:
        sale = deposit_tax(terms, sale, _items(settings.ledger, sale))
    elif sale.status == "deposit":
        items = _items(settings.ledger, sale)
        sale = _became_sale(settings, sale, items, day)
    cash = paid if method == "cash" else 0
    warned = check_cash(settings.ledger, terms, sale.buyer, cash, received=True)
    noted = _noted(settings, "payment noted", sale, items, "sold", day=day)
    return changed(noted, told=tuple(filter(None, (warned, *noted.told))))


def hand_over(settings: Settings, number: str, day: str) -> Sold:
    """A piece held on a deposit is handed over: the sale is of that day, what is not paid is owed."""
    sale = settings.ledger.sales.of(number)
    if sale.status != "deposit":
        raise UserError(f"{number} is not held on a deposit.")
    begun = max([sale.date, *(each.date for each in sale.payments)])
    if day < begun:
        raise UserError(f"{number} was last paid on {begun}; it cannot have gone on {day}.")
    owed = to_pay(sale)
    if owed:
        sale = replace(sale, payments=(*sale.payments, Payment(day, "owed", owed)))
    items = _items(settings.ledger, sale)
    sale = _became_sale(settings, sale, items, day)
    return _noted(settings, "handed over", sale, items, "sold", day=day)


def _became_sale(settings: Settings, sale: Sale, items: list[Item], day: str) -> Sale:
    """A deposit as the sale of a day; what of it bore VAT before keeps that VAT."""
    sale = replace(sale, status="complete", date=day, invoice_number=sale.id)
    return with_deposit_vat(freeze(settings.ledger, settings.on(day), sale, items))


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
    must_hold(sale, kept)
    items = _items(settings.ledger, sale)
    away = [each for each in sale.pieces if each not in kept]
    back = free_again(settings.ledger, away, number)
    changes = [_move(each, "in stock") for each in back]
    if not kept:
        why = sale.reason or f"sent back {day}"
        closed = replace(sale, status="returned", reason=why, ended=day)
        return _noted(settings, "approval returned", closed, [], "in stock", changes)
    out = sale.date
    sale = _kept_of(sale, kept, day, method)
    bought = [each for each in items if each.number in kept]
    cash = sale.total_pence if method == "cash" else 0
    warned = check_cash(settings.ledger, settings.on(day), sale.buyer, cash, received=True)
    if day > years_later(out, 1):
        told = f"{number} was out for over twelve months: VAT was due after twelve at the latest; ask HMRC."
    else:
        told = ""
    noted = _noted(
        settings,
        "approval kept",
        freeze(settings.ledger, settings.on(day), sale, bought),
        bought,
        "sold",
        changes,
        day,
    )
    return changed(noted, told=tuple(filter(None, (warned, told, *noted.told))))


def _kept_of(sale: Sale, kept: Collection[str], day: str, method: str) -> Sale:
    """Goods on approval as the sale of what was kept of them, on that day."""
    lines = tuple(line for line in sale.lines if line.item in kept)
    discount = sum(line.discount_pence for line in lines)
    total = sum(line.price_pence for line in lines) - discount + sale.postage_pence
    return replace(
        sale,
        lines=lines,
        discount_pence=discount,
        total_pence=total,
        status="complete",
        date=day,
        went_out=sale.date,
        invoice_number=sale.id,
        payments=(Payment(day, method, total),) if total else (),
    )


def cancel_deposit(
    settings: Settings, number: str, day: str, method: str = "", kept_pence: int = 0
) -> Sold:
    """A reservation falls through: the pieces go back on sale, the deposit is paid back.

    What the dealer keeps of the deposit by agreement is `kept_pence`; `method` "" pays the rest back
    the way it was paid.
    """
    sale = fallen_through(settings, settings.ledger.sales.of(number), day, method, kept_pence)
    items = free_again(settings.ledger, sale.pieces, number)
    noted = _noted(settings, "reservation cancelled", sale, items, "in stock", day=day)
    return changed(noted, told=(*forfeit_words(sale), *noted.told))


def name_buyer(settings: Settings, number: str, name: str) -> Sold:
    """Note who bought, where that was not said at the sale. Raises UserError when somebody is noted."""
    sale = settings.ledger.sales.of(number)
    if sale.buyer:
        raise UserError(f"{number} has its buyer, {sale.buyer}; complete that person instead.")
    buyer, changes = person_for(settings.ledger, name, sale.date)
    if buyer is None:
        raise InputError("Say the buyer's name, or the number of a person.")
    return _noted(settings, "buyer named", replace(sale, buyer=buyer.id), [], "sold", changes)


def _items(ledger: Ledger, sale: Sale) -> list[Item]:
    found = (ledger.items.find(piece) for piece in sale.pieces)
    return [item for item in found if item is not None]


def _move(item: Item, status: Status) -> Change:
    return put(replace(item, status=status))


def _noted(
    settings: Settings,
    verb: str,
    sale: Sale,
    items: list[Item],
    status: Status,
    more: Collection[Change] = (),
    day: str = "",
) -> Sold:
    changes = (
        put(sale),
        *(_move(each, status) for each in items),
        *more,
    )
    settings.ledger.note(verb, changes)
    return Sold(sale, changes, tuple(late_words(settings, day)) if day else ())
