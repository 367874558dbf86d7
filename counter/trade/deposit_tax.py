"""The tax point of a deposit: what of it bears VAT on the day it is received.

Under the margin scheme no VAT is due until what was received exceeds the cost, then on the excess
(HMRC's margin-scheme manual, VATMARG13500); on a full price the deposit itself bears it. Under
global accounting nothing is taken before the sale: ask HMRC or an accountant.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace

from counter.store.records.sale import Sale, TaxedSum
from counter.trade.terms import Terms
from counter.trade.vat_scheme import line_prices
from counter.values.item import Item
from counter.values.money import share
from counter.values.vat import fraction_words, vat_within


def deposit_tax(terms: Terms, sale: Sale, items: Sequence[Item]) -> Sale:
    """The deposit with what of it has come to bear VAT on the terms' day."""
    received = sale.received
    prices = line_prices(sale)
    if not terms.registered or not received or not any(prices.values()):
        return sale
    more: list[TaxedSum] = []
    parts = share(received, list(prices.values()))
    for item, part in zip(items, parts, strict=True):
        scheme = "ordinary" if sale.vat_shown else item.scheme
        cost = 0 if scheme == "ordinary" else item.cost
        if scheme not in ("ordinary", "margin") or cost is None:
            continue
        taxed = sum(each.pence for each in sale.taxed if each.item == item.number)
        excess = max(0, part - cost) - taxed
        if excess > 0:
            more.append(taxed_sum(terms, item.number, scheme, excess))
    return replace(sale, taxed=(*sale.taxed, *more))


def taxed_sum(terms: Terms, item: str, scheme: str, pence: int) -> TaxedSum:
    """A sum of VAT-inclusive pence with the VAT in it at the rate of the terms' day."""
    part = terms.vat.part
    return TaxedSum(
        date=terms.day,
        item=item,
        scheme=scheme,
        pence=pence,
        vat_fraction=fraction_words(part),
        vat_pence=vat_within(pence, part),
    )


def with_deposit_vat(sale: Sale) -> Sale:
    """A sale just frozen: what bore VAT as a deposit keeps its own, the rest bears the sale's."""
    lines = []
    for line in sale.lines:
        before = [each for each in sale.taxed if each.item == line.item]
        if before and line.vat_pence is not None:
            price = line_prices(sale)[line.item]
            margin = price if line.scheme == "ordinary" else price - (line.cost_pence or 0)
            left = margin - sum(each.pence for each in before)
            vat = vat_within(left, Fraction(line.vat_fraction)) + sum(each.vat_pence for each in before)
            line = replace(line, vat_pence=vat)
        lines.append(line)
    return replace(sale, lines=tuple(lines))
