"""The stock book of a period: a line for every piece that came in or went out, with what is missing.

The sale side shows what was frozen at the sale; a refund is a line of its own that takes the sale's
figures off again. Global-accounting lines carry no margin: that is worked out for the period.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from counter.describe.description import short_line
from counter.describe.names import Names
from counter.store.records.money import Foreign, Payment
from counter.store.records.purchase import Purchase
from counter.store.records.sale import Sale, SaleLine, TaxedSum
from counter.trade.settings import Settings
from counter.trade.vat_scheme import line_prices
from counter.values.item import Item


@dataclass(frozen=True, slots=True)
class BookLine:
    """One line, field for field as the reference's `book_fields` want it; sums in pence.

    A field not known is "" or None. `gaps` name the fields the law asks for and that are missing.
    """

    stock_number: str
    description: str = ""
    purchase_date: str = ""
    purchase_invoice_number: str = ""
    purchase_price: int | None = None
    seller_name: str = ""
    seller_address: str = ""
    seller_vat_status: str = ""
    payment_method: str = ""
    lot_reference: str = ""
    scheme: str = ""
    sale_date: str = ""
    sales_invoice_number: str = ""
    selling_price: int | None = None
    disposal: str = ""
    buyer_name: str = ""
    margin: int | None = None
    vat_due: int | None = None
    vat_rate_used: str = ""
    currency_and_rate: str = ""
    refund_of: str = ""
    gaps: tuple[str, ...] = ()


class Book:
    """The book over a ledger; every answer is worked out anew from the rows."""

    def __init__(self, settings: Settings, names: Names) -> None:
        self.settings = settings
        self.ledger = settings.ledger
        self.names = names

    def lines(self, since: str, until: str) -> list[BookLine]:
        """Every line with an event between two days, both included, by date of purchase and number."""
        found = [*self._sold(since, until), *self._unsold(since, until)]
        found += self.deposits(since, until)
        return sorted(found, key=lambda each: (each.purchase_date, each.stock_number, each.sale_date))

    def sales(self, since: str, until: str) -> Iterator[Sale]:
        """The complete sales, other disposals and refunds of a period."""
        return self.ledger.sales.complete(since, until)

    def kept_of_deposits(self, since: str, until: str) -> int:
        """What was kept of deposits that fell through, in pence: it counts as turnover."""
        kept = (sale.forfeit for sale in self.ledger.sales.taxed() if sale.forfeit)
        return sum(each.pence for each in kept if since <= each.date <= until)

    def money_back(self, since: str, until: str) -> Iterator[Payment]:
        """What sellers paid back in a period for pieces returned to them."""
        for purchase in self.ledger.purchases.with_money_back():
            yield from (each for each in purchase.returned if since <= each.date <= until)

    def purchases(self, since: str, until: str) -> Iterator[Purchase]:
        """The purchases of a period that stand."""
        return self.ledger.purchases.standing(since, until)

    def item(self, number: str) -> Item:
        """A piece by its number; a bare one when its row is gone."""
        return self.ledger.items.find(number) or Item(number)

    def scheme(self, number: str) -> str:
        """How VAT is accounted for on a piece, without making the whole piece."""
        return self.ledger.items.scheme(number)

    def _sold(self, since: str, until: str) -> Iterator[BookLine]:
        for sale in self.sales(since, until):
            prices = line_prices(sale)
            for line in sale.lines:
                yield self._line(line.item, sale, line, prices[line.item])

    def deposits(self, since: str, until: str) -> Iterator[BookLine]:
        """Deposits that bore VAT before the sale, taken off again at their end; what was kept of one."""
        for sale in self.ledger.sales.taxed():
            ended = sale.ended if sale.status == "cancelled" else sale.date
            for part in sale.taxed:
                if since <= part.date <= until:
                    yield self._deposit(sale, part, "deposit")
                if sale.status in ("complete", "cancelled") and since <= ended <= until:
                    yield self._deposit(sale, part, "deposit counted before", -1, ended)
            if sale.forfeit and since <= sale.forfeit.date <= until:
                yield self._deposit(sale, sale.forfeit, "deposit kept")

    def _deposit(self, sale: Sale, part: TaxedSum, what: str, sign: int = 1, day: str = "") -> BookLine:
        item, buyer = self.item(part.item), self.ledger.people.find(sale.buyer)
        return BookLine(
            part.item,
            description=short_line(item, self.names),
            scheme=part.scheme,
            sale_date=day or part.date,
            sales_invoice_number=sale.id,
            selling_price=sign * part.pence,
            disposal=what,
            buyer_name=_name(buyer.name, buyer.erased) if buyer else "",
            margin=sign * part.pence,
            vat_due=sign * part.vat_pence,
            vat_rate_used=part.vat_fraction,
            refund_of="" if sign > 0 else sale.id,
        )

    def _unsold(self, since: str, until: str) -> Iterator[BookLine]:
        sold = {line.item for sale in self.sales(since, until) for line in sale.lines}
        for purchase in self.purchases(since, until):
            for number in purchase.items:
                if number not in sold:
                    yield self._line(number)
        for item in self.ledger.items.without_purchase(since, until):
            if item.number not in sold:
                yield self._line(item.number)

    def _line(
        self, number: str, sale: Sale | None = None, sold: SaleLine | None = None, price: int = 0
    ) -> BookLine:
        item = self.item(number)
        purchase = self.ledger.purchases.find(item.purchase)
        line = self._bought_side(item, purchase)
        if sale is not None and sold is not None:
            line = self._sold_side(line, sale, sold, price)
        return replace(line, gaps=tuple(self._gaps(line, purchase)))

    def _bought_side(self, item: Item, purchase: Purchase | None) -> BookLine:
        line = BookLine(
            item.number,
            description=short_line(item, self.names),
            purchase_date=item.noted,
            purchase_price=item.cost,
            scheme=item.scheme,
        )
        if purchase is None:
            return line
        seller = self.ledger.people.find(purchase.seller)
        paid = ", ".join(dict.fromkeys(each.method for each in purchase.payments)) or purchase.payment
        own = purchase.id if purchase.self_invoiced else ""
        return replace(
            line,
            purchase_date=purchase.date,
            purchase_invoice_number=purchase.invoice_number or own,
            seller_name=_name(seller.name, seller.erased) if seller else "",
            seller_address=_name(seller.address, seller.erased) if seller else "",
            seller_vat_status=purchase.seller_kind or (seller.kind if seller else ""),
            payment_method=paid,
            lot_reference=_lot(purchase),
            currency_and_rate=_rate(purchase.foreign, purchase.total_pence),
        )

    def _sold_side(self, line: BookLine, sale: Sale, sold: SaleLine, price: int) -> BookLine:
        sign = -1 if sale.refund_of else 1
        buyer = self.ledger.people.find(sale.buyer)
        went = sale.went
        cost = sold.cost_pence
        margin = price - cost if went and cost is not None and sold.scheme != "global" else None
        return replace(
            line,
            description=sold.words or line.description,
            purchase_price=sign * cost if cost is not None else line.purchase_price,
            scheme=sold.scheme,
            sale_date=sale.date,
            sales_invoice_number=sale.invoice_number or (sale.id if sale.refund_of else ""),
            selling_price=sign * price if went else None,
            disposal="" if sale.disposal == "sold" else sale.disposal,
            buyer_name=_name(buyer.name, buyer.erased) if buyer else "",
            margin=None if margin is None else sign * margin,
            vat_due=None if sold.vat_pence is None or not went else sign * sold.vat_pence,
            vat_rate_used=sold.vat_fraction,
            currency_and_rate="; ".join(
                filter(None, (line.currency_and_rate, _rate(sale.foreign, sale.total_pence)))
            ),
            refund_of=sale.refund_of,
        )

    def _gaps(self, line: BookLine, purchase: Purchase | None) -> Iterator[str]:
        """The fields the law asks for that are missing, by their labels in the reference."""
        for name in self._wanted(line):
            if getattr(line, name) in ("", None):
                yield self._label(name)
        if line.description == "not identified":
            yield self._label("description")
        if purchase is None:
            yield "no purchase noted"

    def _wanted(self, line: BookLine) -> list[str]:
        names = ["purchase_date", "purchase_price", "seller_name", "seller_address"]
        if line.seller_vat_status in ("margin scheme", "VAT shown"):
            names.append("purchase_invoice_number")
        if line.sale_date and line.scheme == "margin" and line.selling_price is not None:
            names += ["sales_invoice_number", "buyer_name", "margin", "vat_due"]
        return names

    def _label(self, name: str) -> str:
        for side in ("purchase", "sale", "both"):
            field = self.settings.facts.book_fields.get(f"{side}.{name}")
            if field:
                return field.label
        return name.replace("_", " ")


def _name(words: str, erased: str) -> str:
    """A name, or in its place the day it was erased on request: that is no gap to fill."""
    return words or (f"erased on {erased}" if erased else "")


def _lot(purchase: Purchase) -> str:
    if len(purchase.items) < 2:
        return ""
    if purchase.split is None:
        return f"{purchase.id}, not split yet"
    split = purchase.split
    return f"{purchase.id}: {len(purchase.items)} pieces {split.how}, {split.date}"


def _rate(foreign: Foreign | None, pence: int) -> str:
    if foreign is None:
        return ""
    source = f" ({foreign.rate_source}, {foreign.rate_date})" if foreign.rate_source else ""
    return f"{foreign.currency} {foreign.amount_minor} minor at {foreign.rate}{source} = {pence} pence"
