"""What was noted wrongly put right by an entry of its own, at any time; nothing is rubbed out.

The journal keeps both; the corrected row says in its remarks what it said before, when and why. What
that moves elsewhere, and in a return that was filed, is told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from msgspec.structs import replace

from counter.store.entry import Change
from counter.store.records.check import put
from counter.store.records.money import way_to_pay
from counter.store.records.purchase import SELLERS, Purchase, Share
from counter.store.records.sale import Sale
from counter.trade.filing import late_words, moved_words
from counter.trade.people import person_for
from counter.trade.sale_corrections import SALE_FIELDS, frozen_again, sale_put_right, with_credits
from counter.trade.settings import Settings
from counter.trade.vat_scheme import NOT_ELIGIBLE, scheme_when_bought
from counter.values.days import read_day
from counter.values.errors import InputError, UserError
from counter.values.item import Item
from counter.values.money import pounds, read_pence, share

#: What can be put right of a purchase, in words.
PURCHASE_FIELDS = (
    "total",
    "date",
    "payment",
    "seller",
    "seller_kind",
    "scheme",
    "vat",
    "invoice_number",
    "stock_number",
)


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
    sale = None if purchase else settings.ledger.sales.of(number)
    fields = PURCHASE_FIELDS if purchase else (*SALE_FIELDS, *(sale.pieces if sale else ()))
    if strange := sorted(set(wanted) - set(fields)):
        raise InputError(f"{', '.join(strange)} cannot be put right so; {', '.join(fields)} can.")
    if purchase:
        return _purchase(settings, purchase, wanted, day, reason)
    assert sale is not None
    right, changes, before = sale_put_right(settings, sale, wanted)
    right = replace(right, remarks=_remark(sale, before, day, reason))
    sales = list(with_credits(settings, sale, right))
    changes += [put(now) for was, now in sales if was != now]
    settings.ledger.note("sale corrected", changes)
    moved = [f"{sale.id} moved from {sale.date} to {right.date}."] if right.date != sale.date else []
    return Corrected(right, (*moved, *_told(settings, sales, sale.date, right.date)))


def _told(settings: Settings, sales: Sequence[tuple[Sale, Sale]], *days: str) -> Iterator[str]:
    for each in sales:
        yield from _moved(*each)
    every = dict.fromkeys((*days, *(was.date for was, now in sales if was != now)))
    yield from late_words(settings, *every)
    yield from moved_words(settings, *every)


def _remark(record: Purchase | Sale, before: Mapping[str, str], day: str, reason: str) -> str:
    was = ", ".join(f"{name} was {value or 'not noted'}" for name, value in before.items())
    said = f"corrected on {day}: {was} ({reason.strip()})"
    return "\n".join(filter(None, (record.remarks, said)))


def _purchase(
    settings: Settings, known: Purchase, wanted: Mapping[str, str], day: str, reason: str
) -> Corrected:
    if known.cancelled:
        raise UserError(f"{known.id} fell through; there is nothing to put right.")
    bought, before, changes = known, dict[str, str](), list[Change]()
    if "payment" in wanted:
        before["payment"] = ", ".join(each.method for each in known.payments) or known.payment
        bought = replace(bought, payment=way_to_pay(wanted["payment"]), payments=())
    if "total" in wanted:
        before["total"] = pounds(known.total_pence)
        bought = _at_another_price(bought, read_pence(wanted["total"], "the price"))
    if "date" in wanted:
        before["date"] = known.date
        bought = replace(bought, date=read_day(wanted["date"]))
        if early := sorted(_sold_by(settings, known, bought.date)):
            raise UserError(f"{', '.join(early)} sold a piece of {known.id} before {bought.date}.")
    if "seller" in wanted:
        old = settings.ledger.people.find(known.seller)
        before["seller"] = f"{old.name or old.id}" if old else ""
        person, changes = person_for(settings.ledger, wanted["seller"], bought.date)
        bought = replace(bought, seller=person.id if person else "")
    bought = _standing(bought, wanted, before)
    for name, field in (("invoice_number", "invoice_number"), ("stock_number", "seller_stock_number")):
        if name in wanted:
            before[name.replace("_", " ")] = getattr(known, field)
            bought = replace(bought, **{field: wanted[name]})
    bought = replace(bought, remarks=_remark(known, before, day, reason))
    items = _put_right(settings, bought, set(wanted))
    sales = list(frozen_again(settings, items))
    changes += [put(bought), *map(put, items.values()), *(put(sale) for _, sale in sales)]
    settings.ledger.note("purchase corrected", changes)
    return Corrected(bought, tuple(_told(settings, sales, known.date, bought.date)))


def _standing(bought: Purchase, wanted: Mapping[str, str], before: dict[str, str]) -> Purchase:
    """The seller's VAT standing, the scheme and the VAT shown, which hang together."""
    if "seller_kind" in wanted:
        if wanted["seller_kind"] not in SELLERS[1:]:
            raise InputError(f"A seller is one of: {', '.join(SELLERS[1:])}.")
        before["seller's VAT standing"] = bought.seller_kind
        kind = wanted["seller_kind"]
        bought = replace(bought, seller_kind=kind)
        bought = replace(bought, self_invoiced=kind in ("private", "unregistered business"))
    if "scheme" in wanted:
        before["scheme"] = bought.scheme
        bought = replace(bought, scheme=wanted["scheme"])
    if "vat" in wanted:
        before["VAT"] = pounds(bought.vat_pence)
        bought = replace(bought, vat_pence=read_pence(wanted["vat"], "the VAT"))
    if bought.vat_pence and bought.seller_kind not in NOT_ELIGIBLE:
        raise InputError("VAT is noted of goods bought with VAT shown or imported alone.")
    if bought.vat_pence > bought.total_pence:
        raise InputError("The VAT within a price cannot be more than the price.")
    return bought


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
    back = sum(each.pence for each in bought.returned)
    if back > total:
        raise UserError(
            f"{pounds(back)} of {bought.id} came back from the seller, more than {pounds(total)}."
        )
    if len(bought.payments) == 1:
        bought = replace(bought, payments=(replace(bought.payments[0], pence=total),))
    return replace(bought, total_pence=total)


def _put_right(settings: Settings, bought: Purchase, wanted: set[str]) -> dict[str, Item]:
    """The pieces of the purchase at what they cost, and under the scheme they go, now; changed ones."""
    ledger, terms = settings.ledger, settings.on(bought.date)
    costs = {each.item: each.pence for each in bought.split.shares} if bought.split else {}
    if len(bought.items) == 1:
        costs = {bought.items[0]: bought.total_pence}
    found = {}
    for number in bought.items:
        item = ledger.items.find(number)
        if item is None:
            continue
        right = replace(item, cost=costs.get(number, item.cost), noted=bought.date)
        if wanted & {"scheme", "seller_kind"}:
            scheme = scheme_when_bought(terms, bought.scheme, bought.seller_kind, right.cost)
            right = replace(right, scheme=scheme)
        if right != item:
            found[number] = right
    return found


def _sold_by(settings: Settings, bought: Purchase, day: str) -> set[str]:
    sales = (sale for item in bought.items for sale in settings.ledger.sales.with_piece(item))
    return {sale.id for sale in sales if sale.date < day}


def _moved(before: Sale, after: Sale) -> Iterator[str]:
    """What moved in a sale, in a sentence: its return may have been filed."""
    for old, new in zip(before.lines, after.lines, strict=True):
        if (old.cost_pence, old.vat_pence) != (new.cost_pence, new.vat_pence):
            yield (
                f"{before.id} of {before.date}: VAT on {old.item} was {pounds(old.vat_pence or 0)}, is "
                f"{pounds(new.vat_pence or 0)}; if that period is filed, correct the return: ask HMRC."
            )
