"""What was noted wrongly put right by an entry of its own, at any time; nothing is rubbed out.

The journal keeps both; the corrected row says in its remarks what it said before, when and why. What
that moves in a sale of an earlier day is told, for it may be in a return that was filed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from msgspec.structs import replace

from counter.store.records.check import put
from counter.store.records.money import way_to_pay
from counter.store.records.purchase import Purchase, Share
from counter.store.records.sale import Sale
from counter.trade.selling import freeze
from counter.trade.settings import Settings
from counter.values.days import read_day
from counter.values.errors import InputError, UserError
from counter.values.item import Item
from counter.values.money import pounds, read_pence, share

#: What can be put right of each, in words.
PURCHASE_FIELDS = ("total", "date", "payment", "vat", "invoice_number", "stock_number")
SALE_FIELDS = ("date", "payment")


@dataclass(frozen=True, slots=True)
class Corrected:
    """A corrected purchase or sale, and what the dealer should be told: what moved elsewhere."""

    record: Purchase | Sale
    told: tuple[str, ...]


def correct(
    settings: Settings, number: str, wanted: Mapping[str, str], day: str, reason: str
) -> Corrected:
    """Put details of a purchase or a sale right, in one entry. Raises UserError; nothing is noted then."""
    if not reason.strip() or not wanted:
        raise InputError("Say what is right, as total=45, and the reason why it was wrong.")
    purchase = settings.ledger.purchases.find(number)
    fields = PURCHASE_FIELDS if purchase else SALE_FIELDS
    if strange := sorted(set(wanted) - set(fields)):
        raise InputError(f"{', '.join(strange)} cannot be put right so; {', '.join(fields)} can.")
    if purchase:
        return _purchase(settings, purchase, wanted, day, reason)
    return _sale(settings, settings.ledger.sales.of(number), wanted, day, reason)


def _remark(record: Purchase | Sale, before: Mapping[str, str], day: str, reason: str) -> str:
    was = ", ".join(f"{name} was {value or 'not noted'}" for name, value in before.items())
    said = f"corrected on {day}: {was} ({reason.strip()})"
    return "\n".join(filter(None, (record.remarks, said)))


def _purchase(
    settings: Settings, known: Purchase, wanted: Mapping[str, str], day: str, reason: str
) -> Corrected:
    if known.cancelled:
        raise UserError(f"{known.id} fell through; there is nothing to put right.")
    ledger, bought, before = settings.ledger, known, dict[str, str]()
    if "total" in wanted:
        before["total"] = pounds(known.total_pence)
        bought = _at_another_price(bought, read_pence(wanted["total"], "the price"))
    if "date" in wanted:
        before["date"] = known.date
        bought = replace(bought, date=read_day(wanted["date"]))
        if early := sorted(_sold_by(settings, known, bought.date)):
            raise UserError(f"{', '.join(early)} sold a piece of {known.id} before {bought.date}.")
    if "payment" in wanted:
        before["payment"] = ", ".join(each.method for each in known.payments) or known.payment
        bought = replace(bought, payment=way_to_pay(wanted["payment"]), payments=())
    if "vat" in wanted:
        before["VAT"] = pounds(known.vat_pence)
        bought = replace(bought, vat_pence=read_pence(wanted["vat"], "the VAT"))
        if bought.vat_pence and known.seller_kind not in ("VAT shown", "import"):
            raise InputError("VAT is noted of goods bought with VAT shown or imported alone.")
    for name, field in (("invoice_number", "invoice_number"), ("stock_number", "seller_stock_number")):
        if name in wanted:
            before[name.replace("_", " ")] = getattr(known, field)
            bought = replace(bought, **{field: wanted[name]})
    if bought.vat_pence > bought.total_pence:
        raise InputError("The VAT within a price cannot be more than the price.")
    bought = replace(bought, remarks=_remark(known, before, day, reason))
    items = _costed(settings, bought)
    sales = list(_frozen_again(settings, items))
    changes = [put(bought), *map(put, items.values()), *(put(sale) for _, sale in sales)]
    ledger.note(f"purchase corrected: {reason.strip()}", changes)
    return Corrected(bought, tuple(told for each in sales for told in _moved(*each)))


def _at_another_price(bought: Purchase, total: int) -> Purchase:
    """The purchase at another price; the frozen split keeps its proportions."""
    if bought.foreign:
        raise UserError(
            f"{bought.id} was paid in {bought.foreign.currency}; its price cannot be put right."
        )
    if len(bought.payments) > 1:
        raise UserError(f"{bought.id} was paid in parts; say how all of it was paid, as payment=cash.")
    if bought.split:
        parts = bought.split.shares
        pence = share(total, [each.pence for each in parts])
        shares: tuple[Share, ...] = tuple(
            replace(each, pence=new) for each, new in zip(parts, pence, strict=True)
        )
        bought = replace(bought, split=replace(bought.split, shares=shares))
    return replace(bought, total_pence=total)


def _costed(settings: Settings, bought: Purchase) -> dict[str, Item]:
    """The pieces of the purchase at what they cost now, those alone that change."""
    costs = {each.item: each.pence for each in bought.split.shares} if bought.split else {}
    if len(bought.items) == 1:
        costs = {bought.items[0]: bought.total_pence}
    found = {number: settings.ledger.items.find(number) for number in costs}
    return {
        number: replace(item, cost=costs[number], noted=bought.date)
        for number, item in found.items()
        if item and (item.cost, item.noted) != (costs[number], bought.date)
    }


def _sold_by(settings: Settings, bought: Purchase, day: str) -> set[str]:
    sales = (sale for item in bought.items for sale in settings.ledger.sales.with_piece(item))
    return {sale.id for sale in sales if sale.date < day}


def _frozen_again(settings: Settings, items: Mapping[str, Item]) -> Iterator[tuple[Sale, Sale]]:
    """The sales and refunds in which those pieces stand, before and with their cost and VAT anew."""
    ledger = settings.ledger
    found = {sale.id: sale for number in items for sale in ledger.sales.with_piece(number)}
    for sale in found.values():
        if sale.status != "complete" or sale.allowance:
            continue
        if sale.taxed or ledger.sales.refunds(sale.id):
            raise UserError(
                f"{sale.id} had a deposit that bore VAT, or a refund: ask an accountant how to correct it."
            )
        pieces = [items.get(line.item) or ledger.items.of(line.item) for line in sale.lines]
        yield sale, freeze(ledger, settings.on(sale.date), sale, pieces)


def _moved(before: Sale, after: Sale) -> Iterator[str]:
    """What moved in a sale, in a sentence: its return may have been filed."""
    for old, new in zip(before.lines, after.lines, strict=True):
        if (old.cost_pence, old.vat_pence) != (new.cost_pence, new.vat_pence):
            yield (
                f"{before.id} of {before.date}: VAT on {old.item} was {pounds(old.vat_pence or 0)}, is "
                f"{pounds(new.vat_pence or 0)}; if that period is filed, correct the return: ask HMRC."
            )


def _sale(
    settings: Settings, known: Sale, wanted: Mapping[str, str], day: str, reason: str
) -> Corrected:
    sale, before, ledger = known, dict[str, str](), settings.ledger
    if "payment" in wanted:
        paid = [each for each in known.made if each.method != "exchange"]
        if len(paid) != 1:
            raise UserError(f"{known.id} was not paid in one sum; refund it and note it again.")
        before["payment"] = paid[0].method
        right = replace(paid[0], method=way_to_pay(wanted["payment"]))
        sale = replace(
            sale, payments=tuple(right if each is paid[0] else each for each in sale.payments)
        )
    if "date" in wanted:
        before["date"] = known.date
        sale = _on_another_day(settings, sale, read_day(wanted["date"]))
    sale = replace(sale, remarks=_remark(known, before, day, reason))
    ledger.note(f"sale corrected: {reason.strip()}", [put(sale)])
    moved = [f"{known.id} moved from {known.date} to {sale.date}."] if sale.date != known.date else []
    return Corrected(sale, (*moved, *_moved(known, sale)))


def _on_another_day(settings: Settings, sale: Sale, day: str) -> Sale:
    """A complete sale on another day, at the rate of that day."""
    ledger = settings.ledger
    if sale.status != "complete" or sale.refund_of or sale.taxed or ledger.sales.refunds(sale.id):
        raise UserError(f"{sale.id} is not a plain complete sale, so its day cannot be put right.")
    items = [ledger.items.of(line.item) for line in sale.lines]
    bought = (ledger.purchases.find(item.purchase) for item in items)
    if early := [each.id for each in bought if each and each.date > day]:
        raise UserError(f"{', '.join(early)} was bought after {day}.")
    moved = tuple(replace(each, date=day) if each.date == sale.date else each for each in sale.payments)
    return freeze(ledger, settings.on(day), replace(sale, date=day, payments=moved), items)
