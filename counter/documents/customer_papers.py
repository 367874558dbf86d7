"""Papers before and beside a sale: deposit, goods on approval, quotation, what a customer owes."""

from __future__ import annotations

from collections.abc import Sequence

from counter.describe.names import Names
from counter.documents.invoices import letterhead, line_words, own_terms, paid_lines, whole_name
from counter.documents.paper import Paper
from counter.store.records.person import Person
from counter.store.records.sale import Quote, Sale
from counter.trade.quotes import shared_foreign
from counter.trade.refunds import to_pay
from counter.trade.settings import Settings
from counter.trade.vat_scheme import line_prices
from counter.values.currency import written
from counter.values.dates import day_words
from counter.values.money import pounds

Rows = tuple[tuple[str, str, str], ...]
_FOLLOWS = "This is no invoice: that follows when the whole is paid."
_ASKED = "dealer's name and address"


def deposit_paper(settings: Settings, sale: Sale, names: Names) -> Paper:
    """What is reserved for whom, what was paid on it and what is still to pay."""
    owed = to_pay(sale)
    ended = sale.status == "cancelled"
    if ended:
        kept = [f"Kept of the deposit: {pounds(sale.forfeit.pence)}."] if sale.forfeit else []
        foot = [f"Ended on {day_words(sale.ended)}." if sale.ended else "Ended.", *kept]
    else:
        foot = [f"Still to pay: {pounds(owed)}.", _FOLLOWS]
    back = [
        f"Paid back {pounds(-each.pence)} by {each.method}." for each in sale.made if each.pence < 0
    ]
    came = tuple(each for each in sale.made if each.pence > 0)
    paid = [
        f"Deposit received {day_words(each.date)}: {pounds(each.pence)} by {each.method}."
        for each in came
    ]
    return _paper(
        settings,
        ("Deposit receipt", sale.id, sale.date),
        sale.buyer,
        _sale_rows(settings, sale, names),
        sale.total_pence,
        [*paid, *back, *foot, *own_terms(settings, sale.terms)],
        stamp="CANCELLED" if ended else "",
        held="Reserved for you at the prices below." if not ended else "",
    )


def approval_paper(settings: Settings, sale: Sale, names: Names) -> Paper:
    """What went out on approval and by which day it is to be back.

    Nothing is sold until the customer accepts it or keeps it beyond the day (Sale of Goods Act 1979,
    section 18, rule 4).
    """
    due = f"To be returned or paid for by {day_words(sale.due_back)}." if sale.due_back else ""
    back = sale.status == "returned"
    foot = [
        "Sent on approval: nothing is sold until you say that you keep it, or keep it beyond that day."
        if sale.due_back
        else "Sent on approval: nothing is sold until you say that you keep it.",
        "Please return the pieces as they came, with their stock numbers.",
        *paid_lines(settings, sale),
    ]
    return _paper(
        settings,
        ("Goods on approval", sale.id, sale.went_out or sale.date),
        sale.buyer,
        _sale_rows(settings, sale, names),
        sale.total_pence,
        [*foot, *own_terms(settings, sale.terms)],
        stamp="RETURNED" if back else "CANCELLED" if sale.status == "cancelled" else "",
        held="" if back else due,
    )


def quotation(settings: Settings, quote: Quote, names: Names) -> Paper:
    """Prices offered until a day; in another currency too where they were."""
    shares = shared_foreign(quote)
    rows, foot = [], []
    currency = settings.facts.currencies[quote.foreign.currency] if quote.foreign else None
    for place, line in enumerate(quote.lines):
        price = pounds(line.price_pence - line.discount_pence)
        if currency:
            price += f"\n{written(shares[place], currency)}"
        rows.append((line.item, line_words(settings, line, names), price))
    if quote.foreign and currency:
        amount = written(quote.foreign.amount_minor, currency)
        foot.append(f"In {currency.code}: {amount} at {quote.foreign.rate} to the pound.")
    until = f"These prices hold until {day_words(quote.valid_until)}." if quote.valid_until else ""
    open_ = quote.status == "open"
    return _paper(
        settings,
        ("Quotation", quote.id, quote.date),
        quote.customer,
        tuple(rows),
        quote.total_pence,
        [*foot, "This is no invoice.", *own_terms(settings)],
        stamp={"open": "", "taken": "ACCEPTED"}.get(quote.status, quote.status.upper()),
        held=until if open_ else "",
    )


def statement(settings: Settings, who: Person, day: str) -> Paper:
    """What a customer owes on a day: each unpaid invoice and deposit, and what is out on approval."""
    sales = settings.ledger.sales
    rows, owed, out = [], 0, []
    for sale in sorted(sales.to(who.id), key=lambda each: (each.date, each.id)):
        if sale.refund_of or not sale.went:
            continue
        if sale.status == "on approval":
            until = f", due back {day_words(sale.due_back)}" if sale.due_back else ""
            out.append(f"On approval with you, {sale.id}: {', '.join(sale.pieces)}{until}.")
        left = to_pay(sale, sales.refunds(sale.id)) if sale.status in ("complete", "deposit") else 0
        if left:
            what = "Invoice" if sale.status == "complete" else "Reserved on a deposit"
            words = f"{what} of {day_words(sale.date)}, {pounds(sale.total_pence)}"
            rows.append((sale.invoice_number or sale.id, words, pounds(left)))
            owed += left
    said = [] if rows else ["Nothing is owed."]
    return _paper(
        settings,
        ("Statement of account", who.id, day),
        who.id,
        tuple(rows),
        owed,
        [*said, *out, *own_terms(settings)],
        total_words="To pay",
    )


def _sale_rows(settings: Settings, sale: Sale, names: Names) -> Rows:
    prices = line_prices(sale)
    return tuple(
        (each.item, line_words(settings, each, names), pounds(prices[each.item])) for each in sale.lines
    )


def _paper(
    settings: Settings,
    head: tuple[str, str, str],
    customer: str,
    rows: Rows,
    pence: int,
    foot: Sequence[str],
    *,
    stamp: str = "",
    held: str = "",
    total_words: str = "Total",
) -> Paper:
    business, who = settings.business, settings.ledger.people.find(customer)
    missing = [] if business.name and business.address else [_ASKED]
    missing += [] if who and who.name else ["customer's name"]
    return Paper(
        *head,
        ours=letterhead(settings, registered=business.registered(head[2])),
        theirs=whole_name(who),
        rows=rows,
        total=pounds(pence),
        foot=tuple(foot),
        missing=tuple(missing),
        stamp=stamp,
        held=held,
        total_words=total_words,
    )
