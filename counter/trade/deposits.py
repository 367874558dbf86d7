"""A deposit that falls through: the rest paid back the way it was paid, what is kept taxed.

A payment kept when the goods are not taken bears VAT since 1 March 2019 (Revenue and Customs Brief
13 (2018)). How that meets goods under a margin scheme is open: ask HMRC or an accountant.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from counter.store.records.money import PAYMENTS, Payment
from counter.store.records.sale import Sale, TaxedSum
from counter.trade.deposit_tax import taxed_sum
from counter.trade.refunds import to_pay, ways_back
from counter.trade.settings import Settings
from counter.values.errors import InputError, UserError
from counter.values.money import pounds

#: Since this day a payment that is kept bears VAT (Revenue and Customs Brief 13 (2018)).
_KEPT_BEARS_VAT = "2019-03-01"


def fallen_through(settings: Settings, sale: Sale, day: str, method: str, kept: int) -> Sale:
    """A deposit ended: the rest paid back the way it was paid, what is kept taxed on the day.

    Raises UserError.
    """
    paid = sale.total_pence - to_pay(sale)
    if sale.status != "deposit":
        raise UserError(f"{sale.id} is not held on a deposit.")
    if day < sale.date:
        raise UserError(f"{sale.id} was begun on {sale.date}; it cannot have fallen through on {day}.")
    if not 0 <= kept <= paid or (method and method not in PAYMENTS):
        raise InputError(
            f"Keep between nothing and {pounds(paid)}, and say how the rest was paid back."
        )
    back = ways_back(sale, (), paid - kept, method)
    payments = (*sale.payments, *(Payment(day, way, -pence) for way, pence in back.items()))
    terms = settings.on(day)
    forfeit = None
    if kept:
        first = sale.lines[0].item if sale.lines else ""
        forfeit = TaxedSum(date=day, item=first, scheme="none", pence=kept)
        if terms.registered and day >= _KEPT_BEARS_VAT:
            forfeit = taxed_sum(terms, first, "ordinary", kept)
    return replace(
        sale,
        status="cancelled",
        payments=payments,
        reason=f"fell through {day}",
        ended=day,
        forfeit=forfeit,
    )


def forfeit_words(sale: Sale) -> Iterator[str]:
    """What keeping some of a deposit means, and what became of goods taken in for it."""
    if kept := sale.forfeit:
        vat = f", with VAT of {pounds(kept.vat_pence)} on this day" if kept.vat_pence else ""
        yield (
            f"The {pounds(kept.pence)} kept counts as turnover{vat} (Revenue and Customs Brief 13 "
            f"(2018)); for goods under a margin scheme ask HMRC or an accountant."
        )
    if sale.exchange_purchase:
        yield f"What was taken in ({sale.exchange_purchase}) stays yours: its price is in what is paid back."
