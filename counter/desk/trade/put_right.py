"""What of a deal can be put right: the questions, what stands there now, and the correction noted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counter.desk.trade.trading import Trading
from counter.store.records.money import PAYMENTS
from counter.store.records.purchase import SELLERS, Purchase
from counter.store.records.sale import Sale
from counter.trade.corrections import PURCHASE_FIELDS, Corrected, correct
from counter.trade.sale_corrections import SALE_FIELDS
from counter.values.dates import day_words
from counter.values.item import SCHEMES
from counter.values.money import pounds

_LABELS = {
    "total": "price paid",
    "vat": "VAT shown on the paper",
    "seller_kind": "seller's VAT standing",
    "invoice_number": "seller's invoice number",
    "stock_number": "seller's stock number",
    "payment": "how it was paid",
    "price": "price",
}
_CHOICES: dict[str, tuple[tuple[str, str], ...]] = {
    "seller_kind": tuple((each, each) for each in SELLERS if each),
    "scheme": tuple((each, each) for each in SCHEMES if each),
}
#: What of a purchase is the dealer's own.
OWN = ("total", "vat")


@dataclass(frozen=True, slots=True)
class Rightable:
    """A detail that can be put right: its key, label, what it says now, and its choices."""

    key: str
    label: str
    now: str
    choices: tuple[tuple[str, str], ...] = ()


def rightable(trading: Trading, number: str) -> tuple[Rightable, ...]:
    """The details of a purchase or a sale that can be put right. Raises UserError when there is none."""
    purchase = trading.ledger.purchases.find(number)
    if purchase:
        now = _of_purchase(trading, purchase)
        return tuple(
            Rightable(key, _LABELS.get(key, key), now[key], _CHOICES.get(key, ()))
            for key in PURCHASE_FIELDS
        )
    sale = trading.ledger.sales.of(number)
    prices = {line.item: pounds(line.price_pence) for line in sale.lines}
    found = [Rightable(item, f"price of {item}", price) for item, price in prices.items()]
    said = _of_sale(trading, sale)
    ordinary = (("ordinary", "invoiced again with VAT"),)
    found += [
        Rightable(key, _LABELS.get(key, key), said[key], ordinary if key == "scheme" else ())
        for key in SALE_FIELDS
        if key != "price"
    ]
    return tuple(found)


def _name(trading: Trading, key: str) -> str:
    person = trading.ledger.people.find(key)
    return person.name if person else ""


def _of_purchase(trading: Trading, known: Purchase) -> dict[str, str]:
    ways = ", ".join(f"{each.method} {pounds(each.pence)}" for each in known.payments)
    return {
        "total": pounds(known.total_pence),
        "date": day_words(known.date),
        "payment": ways or known.payment,
        "seller": _name(trading, known.seller),
        "seller_kind": known.seller_kind,
        "scheme": known.scheme,
        "vat": pounds(known.vat_pence),
        "invoice_number": known.invoice_number,
        "stock_number": known.seller_stock_number,
    }


def _of_sale(trading: Trading, sale: Sale) -> dict[str, str]:
    ways = ", ".join(f"{each.method} {pounds(each.pence)}" for each in sale.made)
    return {
        "date": day_words(sale.date),
        "payment": ways,
        "buyer": _name(trading, sale.buyer),
        "postage": pounds(sale.postage_pence),
        "scheme": ", ".join(dict.fromkeys(line.scheme for line in sale.lines)),
    }


def note_correction(trading: Trading, number: str, wanted: Mapping[str, str], reason: str) -> Corrected:
    """Put the details right in one entry of today. Raises UserError; then nothing changed."""
    return correct(trading.settings, number, wanted, trading.today, reason)


#: How it may be paid, for the hint of the question.
WAYS_TO_PAY = ", ".join(each for each in PAYMENTS if each not in ("exchange", "owed"))
