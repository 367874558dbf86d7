"""What was noted wrongly of a sale: its price, day, way of paying, buyer, postage or scheme."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from counter.store.entry import Change
from counter.store.records.money import PAYMENTS, Payment, way_to_pay
from counter.store.records.sale import Sale
from counter.trade.people import person_for
from counter.trade.refunds import credited_again
from counter.trade.selling import freeze
from counter.trade.settings import Settings
from counter.values.days import read_day
from counter.values.errors import InputError, UserError
from counter.values.item import Item
from counter.values.money import pounds, read_pence, share

#: What can be put right; of a sale of several pieces a price goes by the stock number: WK-2=90.
SALE_FIELDS = ("price", "date", "payment", "buyer", "postage", "scheme")


def sale_put_right(
    settings: Settings, known: Sale, wanted: Mapping[str, str]
) -> tuple[Sale, list[Change], dict[str, str]]:
    """The sale as it should be, what changes beside it, and what it said before. Raises UserError."""
    sale, before, changes = known, dict[str, str](), list[Change]()
    prices = {name: value for name, value in wanted.items() if name in (*known.pieces, "price")}
    if prices or "postage" in wanted:
        before |= _old_prices(known, prices, wanted)
        sale = _at_other_prices(sale, prices, wanted.get("postage", ""))
    if "payment" in wanted:
        before["payment"], sale = _paid_otherwise(sale, wanted["payment"])
    if "buyer" in wanted:
        old = settings.ledger.people.find(known.buyer)
        before["buyer"] = f"{old.name or old.id}" if old else ""
        person, changes = person_for(settings.ledger, wanted["buyer"], known.date)
        sale = replace(sale, buyer=person.id if person else "")
    if "scheme" in wanted:
        before["scheme"] = ", ".join(dict.fromkeys(line.scheme for line in known.lines))
        sale = _with_vat_shown(sale, wanted["scheme"])
    if "date" in wanted:
        before["date"] = known.date
        sale = _on_another_day(settings, sale, read_day(wanted["date"]))
    if sale.status == "complete" and not sale.refund_of and set(wanted) - {"payment", "buyer"}:
        items = [settings.ledger.items.of(line.item) for line in sale.lines]
        sale = freeze(settings.ledger, settings.on(sale.date), sale, items)
    return sale, changes, before


def _old_prices(
    known: Sale, prices: Mapping[str, str], wanted: Mapping[str, str]
) -> Iterator[tuple[str, str]]:
    for line in known.lines:
        if line.item in prices or "price" in prices:
            yield f"price of {line.item}", pounds(line.price_pence)
    if "postage" in wanted:
        yield "postage", pounds(known.postage_pence)


def _at_other_prices(sale: Sale, prices: Mapping[str, str], postage: str) -> Sale:
    """At other prices; what was paid in full in one sum was that sum, else the rest is owed."""
    if sale.refund_of or sale.taxed or sale.foreign or sale.status == "cancelled":
        raise UserError(
            f"The price of {sale.id} cannot be put right: ask an accountant how to correct it."
        )
    if "price" in prices and len(sale.lines) > 1:
        raise InputError(f"Say which piece of {sale.id}, as {sale.pieces[0]}=90.")
    lines = [
        replace(line, price_pence=read_pence(found))
        if (found := prices.get(line.item) or prices.get("price"))
        else line
        for line in sale.lines
    ]
    charged = read_pence(postage, "the postage") if postage else sale.postage_pence
    before = [line.price_pence for line in lines]
    if sale.discount_pence > sum(before):
        raise InputError("The discount is more than the pieces cost together.")
    shares = share(sale.discount_pence, before) if sale.discount_pence else [0] * len(lines)
    lines = [replace(line, discount_pence=off) for line, off in zip(lines, shares, strict=True)]
    total = sum(before) - sale.discount_pence + charged
    return replace(
        sale,
        lines=tuple(lines),
        postage_pence=charged,
        total_pence=total,
        payments=_paid_at(sale, total),
    )


def _paid_at(sale: Sale, total: int) -> tuple[Payment, ...]:
    made = sale.made
    if len(made) == 1 and made[0].pence == sale.total_pence:
        return (replace(made[0], pence=total),) if total else ()
    paid = sale.received
    if paid > total:
        raise UserError(
            f"{pounds(paid)} was paid on {sale.id}, more than {pounds(total)}: pay the difference back "
            f"with an allowance."
        )
    owed = (
        [Payment(sale.date, "owed", total - paid)] if sale.status == "complete" and paid < total else []
    )
    return (*made, *owed)


def _paid_otherwise(sale: Sale, wanted: str) -> tuple[str, Sale]:
    """What the way was, and the sale with one sum paid by another way, or all of it in parts.

    Parts are written as "cash 20, card 70".
    """
    paid = [each for each in sale.made if each.method != "exchange"]
    was = ", ".join(f"{each.method} {pounds(each.pence)}" for each in paid)
    words = wanted.replace(",", " ").split()
    if len(words) > 1:
        pairs = list(zip(words[::2], words[1::2], strict=False))
        ways = [(way_to_pay(way), read_pence(sum_, "a payment")) for way, sum_ in pairs]
        if len(words) % 2 or sum(pence for _, pence in ways) != sum(each.pence for each in paid):
            raise InputError(f"{wanted}: the parts must come to what was paid, as cash 20, card 70.")
        parts = tuple(Payment(paid[0].date, way, pence) for way, pence in ways)
        kept = tuple(each for each in sale.payments if each not in paid)
        return was, replace(sale, payments=(*parts, *kept))
    if len(paid) != 1:
        raise UserError(
            f"{sale.id} was not paid in one sum; say each part, as payment=cash 20, card 70."
        )
    if wanted not in PAYMENTS or wanted in ("exchange", "owed"):
        raise InputError(
            f"{wanted or 'Nothing'} is not a way it was paid; use {', '.join(PAYMENTS[:4])}."
        )
    right = replace(paid[0], method=way_to_pay(wanted))
    made = tuple(right if each is paid[0] else each for each in sale.payments)
    return paid[0].method, replace(sale, payments=made)


def _with_vat_shown(sale: Sale, scheme: str) -> Sale:
    """A margin sale invoiced again with VAT (rule "switch-after-sale"); never the other way round."""
    if scheme != "ordinary":
        raise UserError(
            "A sale can be put right to ordinary VAT alone: one invoiced with VAT cannot go under a scheme "
            "later (rule margin-optional); a wrong scheme of the piece is corrected in its purchase."
        )
    if sale.refund_of or sale.status != "complete":
        raise UserError(f"{sale.id} is not a complete sale.")
    return replace(sale, vat_shown=True)


def _on_another_day(settings: Settings, sale: Sale, day: str) -> Sale:
    """A complete sale, or a refund, on another day."""
    ledger = settings.ledger
    if sale.status != "complete" or sale.taxed:
        raise UserError(f"{sale.id} is not a plain complete sale, so its day cannot be put right.")
    items = [ledger.items.of(line.item) for line in sale.lines]
    bought = (ledger.purchases.find(item.purchase) for item in items)
    if early := [each.id for each in bought if each and each.date > day]:
        raise UserError(f"{', '.join(early)} was bought after {day}.")
    if early := [each.id for each in ledger.sales.refunds(sale.id) if each.date < day]:
        raise UserError(f"{', '.join(early)} came back before {day}.")
    first = ledger.sales.find(sale.refund_of)
    if first and day < first.date:
        raise UserError(f"{first.id} was sold on {first.date}; it cannot have come back on {day}.")
    moved = tuple(replace(each, date=day) if each.date == sale.date else each for each in sale.payments)
    return replace(sale, date=day, payments=moved)


def with_credits(settings: Settings, before: Sale, after: Sale) -> Iterator[tuple[Sale, Sale]]:
    """A sale put right with its refunds and allowances, each before and after. Raises UserError."""
    refunds = settings.ledger.sales.refunds(before.id)
    if refunds and before.total_pence != after.total_pence:
        raise UserError(
            f"{before.id} was refunded, in part or whole, at the price it says: ask an accountant how to "
            f"correct it."
        )
    yield before, after
    yield from zip(refunds, credited_again(after, refunds), strict=True)


def frozen_again(settings: Settings, items: Mapping[str, Item]) -> Iterator[tuple[Sale, Sale]]:
    """The sales, with their refunds, in which those pieces stand: before, and with cost and VAT anew."""
    ledger = settings.ledger
    found = {sale.id: sale for number in items for sale in ledger.sales.with_piece(number)}
    for sale in found.values():
        if sale.status != "complete" or sale.refund_of:
            continue
        if sale.taxed:
            raise UserError(
                f"{sale.id} had a deposit that bore VAT: ask an accountant how to correct it."
            )
        pieces = [items.get(line.item) or ledger.items.of(line.item) for line in sale.lines]
        yield from with_credits(settings, sale, freeze(ledger, settings.on(sale.date), sale, pieces))
