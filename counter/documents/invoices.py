"""Invoices: for a buyer under the margin scheme, and made out by the dealer for a private seller.

A sale's paper shows one VAT-inclusive price a piece and the wording the law fixes; never VAT, a
rate, a net price, the margin or the cost. What the law asks for and is missing is listed beside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from msgspec.structs import replace

from counter.describe.description import long_form
from counter.describe.names import Names
from counter.documents.html_page import lines, page, table
from counter.store.records.person import Person
from counter.store.records.purchase import Purchase
from counter.store.records.sale import Sale, SaleLine
from counter.trade.refunds import to_pay
from counter.trade.settings import Settings
from counter.trade.vat_scheme import line_prices
from counter.values.currency import from_sterling, read_rate, written
from counter.values.dates import day_words
from counter.values.errors import UserError
from counter.values.item import Item
from counter.values.money import pounds


@dataclass(frozen=True, slots=True)
class Paper:
    """An invoice: its heading, who to whom, lines of (stock number, words, price), and the foot.

    `missing` names what the law asks for and is not known; it is never printed on the paper.
    """

    title: str
    number: str
    date: str
    ours: str
    theirs: str
    rows: tuple[tuple[str, str, str], ...]
    total: str
    foot: tuple[str, ...]
    missing: tuple[str, ...] = ()

    def text(self) -> str:
        """The paper in plain text, as wide as its words."""
        body = []
        for number, words, price in self.rows:
            first, *more = words.splitlines() or [""]
            body.append(f"{number:<10} {first}".rstrip())
            body += [f"{'':<10} {line}" for line in more]
            body += [f"{'':<10} {price:>12}"] if price else []
        parts = [
            f"{self.title} {self.number}",
            f"Date: {day_words(self.date)}",
            "",
            self.ours,
            "",
            self.theirs,
            "",
        ]
        return "\n".join([*parts, *body, "", f"{'Total':<10} {self.total:>12}", "", *self.foot])

    def html(self) -> str:
        """The paper as a page to print."""
        rows = [*self.rows, ("", "Total", self.total)]
        return page(
            f"{self.title} {self.number}",
            [
                lines(f"Date: {day_words(self.date)}\n\n{self.ours}"),
                lines(self.theirs),
                table(("Stock no.", "Description", "Price"), rows, (2,)),
                lines("\n".join(self.foot)),
            ],
        )


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
        (line.item, _words(settings, line, names), pounds(prices[line.item])) for line in sale.lines
    )
    foot = [*_declaration(settings, scheme), *_vat(sale, scheme, total), *_paid(settings, sale)]
    foot += _credited(settings, sale)
    if sale.terms or settings.business.terms:
        foot += ["", sale.terms or settings.business.terms]
    return Paper(
        "Credit note" if sale.refund_of else "Invoice",
        (sale.invoice_number or sale.id) + part,
        sale.date,
        _ours(settings, registered=scheme != "none"),
        _whole_name(buyer),
        rows,
        pounds(total),
        tuple(foot + ([f"Credit for invoice {sale.refund_of}."] if sale.refund_of else [])),
        tuple(_missing(settings, scheme, buyer, total)),
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
        "Purchase invoice",
        purchase.id,
        purchase.date,
        f"Bought by\n{_ours(settings, registered=False)}",
        f"From\n{_whole_name(seller)}",
        tuple(rows),
        pounds(purchase.total_pence),
        (
            "The goods are mine to sell.",
            "",
            "Signed ______________________________",
        ),
        tuple(missing),
    )


def _words(settings: Settings, line: SaleLine, names: Names) -> str:
    item = settings.ledger.items.find(line.item) or Item(line.item)
    return line.words or long_form(item, names)


def _ours(settings: Settings, *, registered: bool) -> str:
    business = settings.business
    number = f"VAT number {business.vat_number}" if registered and business.vat_number else ""
    return "\n".join(filter(None, (business.name, business.address, number)))


def _whole_name(who: Person | None) -> str:
    return "\n".join(filter(None, (who.name, who.address))) if who else ""


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


def _paid(settings: Settings, sale: Sale) -> list[str]:
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
