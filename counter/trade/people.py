"""People: found by name, completed later, shown everything held about them, erased when the law lets.

Purchases and sales know a person only by id. What tax law wants kept (name and address on the
papers) stays for its term; everything else goes at once when asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from counter.store.entry import Change
from counter.store.erase import Target, erase
from counter.store.ledger import Ledger
from counter.store.records.person import PERSON, Person
from counter.store.records.purchase import SELLERS
from counter.trade.settings import House
from counter.values.days import filing_deadline, tax_year_end, years_later
from counter.values.errors import UserError

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


@dataclass(frozen=True, slots=True)
class Erasure:
    """What became of a request: the fields gone, those kept, until when and why ("" when all went)."""

    person: str
    gone: tuple[str, ...]
    kept: tuple[str, ...]
    until: str
    why: str
    remains: tuple[str, ...] = ()  # where copies may still be


def person(ledger: Ledger, key: str) -> Person | None:
    """The person of an id; None for no id and for one that is not there."""
    row = ledger.row("people", key) if key else None
    return None if row is None else PERSON.build(row)


def find_people(ledger: Ledger, name: str) -> list[Person]:
    """Everybody of that name, in whatever case; nameless since an erasure, nobody finds them."""
    wanted = " ".join(name.split()).casefold()
    found = (PERSON.build(dict(row)) for row in ledger.rows("people"))
    return [each for each in found if each.name.casefold() == wanted]


def person_for(ledger: Ledger, name: str, day: str) -> tuple[Person | None, list[Change]]:
    """The one person of a name, or a new one with the change that notes them; None for no name.

    Raises UserError when several go by the name: then say the id.
    """
    words = " ".join(name.split())
    if not words:
        return None, []
    if known := person(ledger, words):
        return known, []
    found = find_people(ledger, words)
    if len(found) > 1:
        ids = ", ".join(f"{each.id} ({each.address or 'no address'})" for each in found)
        raise UserError(f"Several people are called {words}: say which by number, {ids}.")
    if found:
        return found[0], []
    new = Person(ledger.next_number("people"), name=words, first_seen=day)
    return new, [Change("people", new.id, PERSON.write(new))]


def complete_person(ledger: Ledger, key: str, /, **details: str) -> Person:
    """Note name, address, VAT standing or number that were owed. Raises UserError on unknown words."""
    known = person(ledger, key)
    if known is None:
        raise UserError(f"There is no person {key}.")
    if details.get("kind", "") not in SELLERS:
        raise UserError(f"A seller is one of: {', '.join(SELLERS[1:])}.")
    try:
        changed = replace(known, **details)
    except TypeError:
        raise UserError(
            "A person has name, address, kind, vat_number, phone, email, remarks."
        ) from None
    ledger.note("person completed", [Change("people", key, PERSON.write(changed))])
    return changed


def held_about(house: House, key: str) -> dict[str, Any]:
    """Everything held about a person, for an access request: details and the entries naming them."""
    ledger = house.ledger
    known = person(ledger, key)
    if known is None:
        raise UserError(f"There is no person {key}.")
    until, why = kept_until(house, key)
    return {
        "person": PERSON.write(known),
        "purchases": [dict(row) for row in _naming(ledger, "purchases", "seller", key)],
        "sales": [dict(row) for row in _naming(ledger, "sales", "buyer", key)],
        "quotes": [dict(row) for row in _naming(ledger, "quotes", "customer", key)],
        "kept_until": until,
        "why": why,
    }


def _naming(ledger: Ledger, table: str, field: str, key: str) -> list[Mapping[str, Any]]:
    return [row for row in ledger.rows(table) if row.get(field) == key]


def kept_until(house: House, key: str) -> tuple[str, str]:
    """Until when the law wants name and address kept, and why; ("", "") when it does not.

    "unsold" stands for a date not known yet: stock bought from them is still there.
    """
    ledger, last = house.ledger, ""
    for row in _naming(ledger, "purchases", "seller", key):
        if row.get("cancelled"):
            continue
        sold = [_sold_on(ledger, number) for number in row.get("items", ())]
        if "" in sold:
            return "unsold", _WHY_UNSOLD
        last = max([last, row["date"], *sold])
    for row in _naming(ledger, "sales", "buyer", key):
        last = max([last, row["date"]])
    if not last:
        return "", ""
    until = years_later(filing_deadline(tax_year_end(last)), _BUSINESS_YEARS)
    if house.business.registered(last):
        until = max(until, years_later(last, _VAT_YEARS))
    return until, _WHY


def _sold_on(ledger: Ledger, number: str) -> str:
    """The day a piece last went out, "" while it is still the dealer's."""
    item = ledger.row("items", number)
    if item and item.get("status", "in stock") not in ("sold", "withdrawn", "returned"):
        return ""
    days = [
        str(row["date"])
        for row in ledger.rows("sales")
        if not row.get("refund_of") and any(line["item"] == number for line in row.get("lines", ()))
    ]
    return max(days, default="0001-01-01")


def erase_person(house: House, key: str, day: str) -> Erasure:
    """Carry out a request to be forgotten as far as the law lets, and say what stays and why.

    When all goes, the lines typed at the stall go too: they name the person. Raises UserError.
    """
    ledger = house.ledger
    known = person(ledger, key)
    if known is None:
        raise UserError(f"There is no person {key}.")
    until, why = kept_until(house, key)
    needed = _NEEDED if until == "unsold" or day <= until else ()
    held = {name for name in PERSON.write(known) if name not in ("id", "erased")}
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
    """The fields of their deals that hold what was typed, where they hold anything."""
    places = (
        ("purchases", "seller", ("identity_seen", "remarks", "words")),
        ("sales", "buyer", ("remarks", "words")),
        ("quotes", "customer", ("remarks", "words")),
    )
    return [
        (table, row["id"], tuple(name for name in names if row.get(name)))
        for table, field, names in places
        for row in _naming(ledger, table, field, key)
        if any(row.get(name) for name in names)
    ]
