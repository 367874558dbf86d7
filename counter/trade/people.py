"""People: found by name, completed later, shown everything held about them, erased when the law lets.

Purchases and sales know a person only by id. What tax law wants kept (name and address on the
papers) stays for its term; everything else goes at once when asked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace

from counter.store.entry import Change
from counter.store.erase import Target, erase
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.person import Person
from counter.store.records.purchase import SELLERS
from counter.trade.settings import Settings
from counter.values.days import filing_deadline, tax_year_end, years_later
from counter.values.errors import UserError
from counter.values.record import Record, write_row

_VAT_YEARS = 6  # retention "vat-6" (govuk-margin-records)
_BUSINESS_YEARS = 5  # retention "self-assessment" (mygov-scot-records)
_WHY = (
    "a sole trader keeps business records 5 years after the 31 January deadline (mygov.scot), "
    "and VAT records 6 years (GOV.UK, VAT margin schemes: Keeping records); ask an accountant"
)
_WHY_UNSOLD = (
    "a piece bought from them is unsold, and its record stays until it is sold "
    "(GOV.UK, VAT margin schemes: Keeping records)"
)
#: What the papers do not need goes at once; the rest when the last paper's term is over.
_NEEDED = ("name", "address", "vat_number", "kind")
#: What was typed of a deal, where a person may be named.
_TYPED = ("identity_seen", "remarks", "words")


@dataclass(frozen=True, slots=True)
class Erasure:
    """What became of a request: the fields gone, those kept, until when and why ("" when all went)."""

    person: str
    gone: tuple[str, ...]
    kept: tuple[str, ...]
    until: str
    why: str
    remains: tuple[str, ...] = ()  # where copies may still be


def person_for(ledger: Ledger, name: str, day: str) -> tuple[Person | None, list[Change]]:
    """The one person of a name, or a new one with the change that notes them; None for no name.

    Raises UserError when several go by the name: then say the id.
    """
    words = " ".join(name.split())
    if not words:
        return None, []
    if known := ledger.people.find(words):
        return known, []
    found = ledger.people.named(words)
    if len(found) > 1:
        ids = ", ".join(f"{each.id} ({each.address or 'no address'})" for each in found)
        raise UserError(f"Several people are called {words}: say which by number, {ids}.")
    if found:
        return found[0], []
    new = Person(ledger.next_number("people"), name=words, first_seen=day)
    return new, [put(new)]


def complete_person(ledger: Ledger, key: str, /, **details: str) -> Person:
    """Note name, address, VAT standing or number that were owed. Raises UserError on unknown words."""
    known = ledger.people.of(key)
    if details.get("kind", "") not in SELLERS:
        raise UserError(f"A seller is one of: {', '.join(SELLERS[1:])}.")
    try:
        changed = replace(known, **details)
    except TypeError:
        raise UserError(
            "A person has name, address, kind, vat_number, phone, email, remarks."
        ) from None
    ledger.note("person completed", [put(changed)])
    return changed


def held_about(settings: Settings, key: str) -> dict[str, Any]:
    """Everything held about a person, for an access request: details and the entries naming them."""
    ledger = settings.ledger
    known = ledger.people.of(key)
    until, why = kept_until(settings, key)
    return {
        "person": write_row(known),
        "purchases": [write_row(each) for each in ledger.purchases.from_(key)],
        "sales": [write_row(each) for each in ledger.sales.to(key)],
        "quotes": [write_row(each) for each in ledger.quotes.for_(key)],
        "kept_until": until,
        "why": why,
    }


def kept_until(settings: Settings, key: str) -> tuple[str, str]:
    """Until when the law wants name and address kept, and why; ("", "") when it does not.

    "unsold" stands for a date not known yet: stock bought from them is still there.
    """
    ledger, last = settings.ledger, ""
    for purchase in ledger.purchases.from_(key):
        if purchase.cancelled:
            continue
        sold = [_sold_on(ledger, number) for number in purchase.items]
        if "" in sold:
            return "unsold", _WHY_UNSOLD
        last = max([last, purchase.date, *sold])
    last = max([last, *(sale.date for sale in ledger.sales.to(key))])
    if not last:
        return "", ""
    until = years_later(filing_deadline(tax_year_end(last)), _BUSINESS_YEARS)
    if settings.business.registered(last):
        until = max(until, years_later(last, _VAT_YEARS))
    return until, _WHY


def _sold_on(ledger: Ledger, number: str) -> str:
    """The day a piece last went out, "" while it is still the dealer's."""
    item = ledger.items.find(number)
    if item and item.status not in ("sold", "withdrawn", "returned"):
        return ""
    days = (sale.date for sale in ledger.sales.with_piece(number) if not sale.refund_of)
    return max(days, default="0001-01-01")


def erase_person(settings: Settings, key: str, day: str) -> Erasure:
    """Carry out a request to be forgotten as far as the law lets, and say what stays and why.

    When all goes, the lines typed at the stall go too: they name the person. Raises UserError.
    """
    ledger = settings.ledger
    known = ledger.people.of(key)
    until, why = kept_until(settings, key)
    needed = _NEEDED if until == "unsold" or day <= until else ()
    held = {name for name in write_row(known) if name not in ("id", "erased")}
    gone = tuple(sorted(held.difference(needed)))
    kept = tuple(name for name in needed if name in held)
    targets: list[Target] = [("people", key, gone)] if gone else []
    if not needed:
        targets += _typed_lines(ledger, key)
    if not targets:
        return Erasure(key, (), kept, until if kept else "", why if kept else "")
    remains = erase(ledger, targets, "details erased on request").remains
    return Erasure(key, gone, kept, until if kept else "", why if kept else "", remains)


def _typed_lines(ledger: Ledger, key: str) -> list[Target]:
    """The fields of their deals that hold what was typed, or that only a newer program knows."""
    deals: list[Record] = [
        *ledger.purchases.from_(key),
        *ledger.sales.to(key),
        *ledger.quotes.for_(key),
    ]
    found = []
    for change, deal in ((put(deal), deal) for deal in deals):
        strange = [name for name, _ in deal.later]
        names = [each for each in (*_TYPED, *strange) if (change.row or {}).get(each)]
        if names:
            found.append((change.table, change.key, tuple(names)))
    return found
