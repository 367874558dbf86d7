"""Invoices and credit notes for a buyer, and the one made out by the dealer for a private seller.

A sale's paper shows one VAT-inclusive price a piece and the wording the law fixes; never VAT, a
rate, a net price, the margin or the cost. What the law asks for and is missing is listed beside it.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from counter.describe.description import long_form, short_line
from counter.describe.names import Names
from counter.documents.paper import Paper
from counter.store.records.person import Person
from counter.store.records.purchase import Purchase
from counter.store.records.sale import QuotedPiece, Sale, SaleLine
from counter.trade.refunds import to_pay
from counter.trade.settings import Settings
from counter.trade.vat_scheme import line_prices
from counter.values.currency import from_sterling, read_rate, written
from counter.values.dates import day_words
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.money import pounds


def sale_invoice(settings: Settings, sale: Sale, names: Names, only: str = "") -> Paper:
    """The invoice of a complete sale. Raises UserError for one that is not, and for a mixed one.

    Scheme and ordinary sales go on separate papers (rule "mixed-invoice"): `only` says which of them.
    """
    if sale.status != "complete" or not sale.went:
        raise UserError(f"{sale.id} is {sale.status}, so it has no invoice.")
    prices = line_prices(sale)
    mixed = {line.scheme for line in sale.lines}
    schemes = {each for each in mixed if only in ("", each)}
    if len(schemes) > 1 or (only and not schemes):
        papers = " and ".join(f"{sale.id}/{each}" for each in sorted(mixed))
        raise UserError(f"{sale.id} mixes {' and '.join(sorted(mixed))}; its papers are {papers}.")
    sale = replace(sale, lines=tuple(line for line in sale.lines if line.scheme in schemes))
    part = f"/{only}" if len(mixed) > 1 else ""
    scheme = schemes.pop() if schemes else "none"
    buyer = settings.ledger.people.find(sale.buyer)
    total = sum(prices[line.item] for line in sale.lines)
    rows = tuple(
        (line.item, line_words(settings, line, names), pounds(prices[line.item])) for line in sale.lines
    )
    foot = [*_declaration(settings, scheme), *_vat(sale, scheme, total), *paid_lines(settings, sale)]
    foot += _credited(settings, sale)
    foot += own_terms(settings, sale.terms)
    return Paper(
        "Credit note" if sale.refund_of else "Invoice",
        (sale.invoice_number or sale.id) + part,
        sale.date,
        letterhead(settings, registered=scheme != "none"),
        whole_name(buyer),
        rows,
        pounds(total),
        tuple(foot + ([f"Credit for invoice {sale.refund_of}."] if sale.refund_of else [])),
        tuple(_missing(settings, scheme, buyer, total)),
        _become(settings, sale),
    )


def purchase_invoice(settings: Settings, purchase: Purchase, names: Names) -> Paper:
    """The invoice a dealer makes out when buying from the public: one total, nothing added to it."""
    seller = settings.ledger.people.find(purchase.seller)
    rows = []
    for number in purchase.items:
        item = settings.ledger.items.find(number)
        rows.append((number, long_form(item, names) if item else "", ""))
    missing = []
    if not (seller and seller.name and seller.address):
        missing.append("seller's name and address")
    if not (settings.business.name and settings.business.address):
        missing.append("dealer's name and address")
    return Paper(
        "Record of purchase" if purchase.seller_kind in _INVOICED else "Purchase invoice",
        purchase.id,
        purchase.date,
        f"Bought by\n{letterhead(settings, registered=False)}",
        f"From\n{whole_name(seller)}",
        tuple(rows),
        pounds(purchase.total_pence),
        (
            *_seller_paid(purchase),
            "",
            "The goods are mine to sell.",
            "",
            "Signed ______________________________",
        ),
        tuple(missing),
        "CANCELLED" if purchase.cancelled else "",
    )


_INVOICED = ("margin scheme", "VAT shown", "import")  # the seller's own invoice is the paper
_SELLERS = {
    "private": "The seller is a private person.",
    "unregistered business": "The seller is a business not registered for VAT.",
}


def _seller_paid(purchase: Purchase) -> list[str]:
    """What the seller is, and how each part of the price was paid."""
    ways = [f"{each.method} {pounds(abs(each.pence))}" for each in purchase.payments]
    paid = ", ".join(ways) or (
        purchase.payment and f"{purchase.payment} {pounds(purchase.total_pence)}"
    )
    back = [
        f"Paid back {day_words(each.date)}: {each.method} {pounds(abs(each.pence))}."
        for each in purchase.returned
    ]
    who = _SELLERS.get(purchase.seller_kind, "")
    return [*filter(None, (who, paid and f"Paid: {paid}.")), *back]


def line_words(settings: Settings, line: SaleLine | QuotedPiece, names: Names) -> str:
    """A piece in plain English; in the words it was sold by where the piece reads differently now."""
    item = settings.ledger.items.find(line.item) or Item(line.item)
    same = line.words in ("", short_line(item, names))
    return long_form(item, names) if same else line.words


def letterhead(settings: Settings, *, registered: bool) -> str:
    """The dealer's name, address and, where VAT is accounted for, number."""
    business = settings.business
    number = f"VAT number {business.vat_number}" if registered and business.vat_number else ""
    return "\n".join(filter(None, (business.name, business.address, number)))


def whole_name(who: Person | None) -> str:
    """A person's name and address; "" for nobody."""
    return "\n".join(filter(None, (who.name, who.address))) if who else ""


def own_terms(settings: Settings, terms: str = "") -> list[str]:
    """The deal's own terms, or the house's, set apart; nothing where there are none."""
    said = terms or settings.business.terms
    return ["", said] if said else []


def _become(settings: Settings, sale: Sale) -> str:
    """What became of a sale, to be seen at once: REFUNDED, PARTLY REFUNDED or ""."""
    back = [] if sale.refund_of else settings.ledger.sales.refunds(sale.id)
    taken = {piece for each in back if not each.allowance for piece in each.pieces}
    if not taken & set(sale.pieces):
        return ""
    return "REFUNDED" if taken >= set(sale.pieces) else "PARTLY REFUNDED"


def _declaration(settings: Settings, scheme: str) -> list[str]:
    """The wording the law fixes, to the letter (declarations "uk-collectors", "uk-global")."""
    which = {"margin": "uk-collectors", "global": "uk-global"}.get(scheme)
    return [settings.facts.declarations[which].wording] if which else []


def _vat(sale: Sale, scheme: str, total: int) -> list[str]:
    """VAT is shown on an ordinary invoice alone."""
    if scheme != "ordinary":
        return []
    vat = sum(line.vat_pence or 0 for line in sale.lines)
    part = next((line.vat_fraction for line in sale.lines if line.vat_fraction), "0/1")
    fraction = Fraction(part)
    percent = fraction / (1 - fraction) * 100
    return [f"Price without VAT {pounds(total - vat)}", f"VAT at {float(percent):g} % {pounds(vat)}"]


def _credited(settings: Settings, sale: Sale) -> list[str]:
    """What was refunded or allowed since, on the first paper too; what is owed after that."""
    refunds = [] if sale.refund_of else settings.ledger.sales.refunds(sale.id)
    said = []
    for each in sorted(refunds, key=lambda refund: (refund.date, refund.id)):
        what = "Allowance" if each.allowance else "Refunded"
        said.append(
            f"{what} {day_words(each.date)}: {pounds(each.total_pence)}, credit note {each.id}."
        )
    owed = 0 if sale.refund_of else to_pay(sale, refunds)
    return [*said, *([f"Owed: {pounds(owed)}."] if owed > 0 else [])]


def paid_lines(settings: Settings, sale: Sale) -> list[str]:
    """How it was paid, each way with its sum; in another currency too where it was."""
    paid = [f"{each.method} {pounds(abs(each.pence))}" for each in sale.made]
    said = [f"{'Paid back' if sale.refund_of else 'Paid'}: {', '.join(paid)}."] if paid else []
    if sale.foreign:
        currency = settings.facts.currencies[sale.foreign.currency]
        rate = read_rate(sale.foreign.rate)
        amount = sale.foreign.amount_minor or from_sterling(sale.total_pence, currency, rate)
        said.append(
            f"In {currency.code}: {written(amount, currency)} at {sale.foreign.rate} to the pound."
        )
    return said


#: Up to this an ordinary invoice may be a simplified one, without the buyer (VAT Notice 700, section 16).
_SIMPLIFIED = 250_00


def _missing(settings: Settings, scheme: str, buyer: Person | None, total: int) -> list[str]:
    business, missing = settings.business, []
    if not (business.name and business.address):
        missing.append("dealer's name and address")
    if scheme != "none" and not business.vat_number:
        missing.append("VAT number")
    named = scheme == "margin" or (scheme == "ordinary" and total > _SIMPLIFIED)
    if named and not (buyer and buyer.name and buyer.address):
        missing.append("buyer's name and address")
    return missing
