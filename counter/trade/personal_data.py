"""What is held about a person: shown whole, kept as long as the law wants, erased when it lets.

Purchases and sales know a person only by id. What tax law wants kept (name and address on the
papers) stays for its term; everything else goes at once when asked for.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from counter.store.erase import WHOLE, Target, erase, versions
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.person import Person
from counter.trade.accounts_day import owed_on
from counter.trade.refunds import to_pay
from counter.trade.settings import Settings
from counter.values.days import filing_deadline, tax_year_end, years_later
from counter.values.record import Record, values_of, write_row

_VAT_YEARS = 6  # retention "vat-6" (govuk-margin-records)
_BUSINESS_YEARS = 5  # retention "self-assessment" (mygov-scot-records)
_WHY = (
    "a sole trader keeps business records 5 years after the 31 January deadline (mygov.scot), "
    "and VAT records 6 years (GOV.UK, VAT margin schemes: Keeping records); ask an accountant"
)
_WHY_COMPANY = (
    "a company keeps accounting records 6 years from the end of the year they are of (GOV.UK, company "
    "records); ask an accountant"
)
_WHY_OPEN = "money or goods are still open between you, and the books must say with whom"
_WHY_UNSOLD = (
    "a piece bought from them is unsold, and its record stays until it is sold "
    "(GOV.UK, VAT margin schemes: Keeping records)"
)
#: What the papers do not need goes at once; the rest when the last paper's term is over.
_NEEDED = ("name", "address", "vat_number", "kind")
#: What was typed of a deal, where a person may be named.
_TYPED = ("identity_seen", "remarks", "words")
#: Free text of any row, where a person may be named in passing.
_FREE = (
    "remarks",
    "words",
    "reason",
    "place",
    "provenance",
    "description",
    "terms",
    "identity_seen",
    "name",
)
_SEARCHED = ("items", "purchases", "sales", "quotes", "cash", "costs", "fairs", "baths")


@dataclass(frozen=True, slots=True)
class Erasure:
    """What became of a request: the fields gone, those kept, until when and why ("" when all went)."""

    person: str
    gone: tuple[str, ...]
    kept: tuple[str, ...]
    until: str
    why: str
    remains: tuple[str, ...] = ()  # where copies may still be


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
        "mentioned": [f"{table} {row}: {field}" for table, row, field in mentions(ledger, known)],
        "kept_until": until,
        "why": why,
    }


def mentions(ledger: Ledger, person: Person) -> Iterator[tuple[str, str, str]]:
    """Where free text of any row names a person: by name, first line of the address, phone or e-mail."""
    wanted = _said_of([write_row(person)])
    for table in _SEARCHED:
        for row in ledger.rows(table):
            for field in _naming(wanted, row):
                yield table, str(row.get("id") or row.get("number")), field


def _said_of(rows: Iterable[Mapping[str, Any]]) -> set[str]:
    """What rows of a person say that a free text may say too."""
    said = [
        str(part or "")
        for row in rows
        for part in (
            row.get("name"),
            str(row.get("address") or "").split(",")[0],
            row.get("phone"),
            row.get("email"),
        )
    ]
    return {" ".join(each.casefold().split()) for each in said if len(each.strip()) > 3}


def _naming(wanted: Collection[str], row: Mapping[str, Any]) -> Iterator[str]:
    """The fields of free text that have one of these in them."""
    for field in _FREE:
        text = " ".join(str(row.get(field) or "").casefold().split())
        if text and any(each in text for each in wanted):
            yield field


def open_between(ledger: Ledger, key: str) -> bool:
    """Whether anything is open with a person: owed either way, a deposit, goods on approval."""
    for sale in ledger.sales.to(key):
        if sale.status in ("deposit", "on approval") or (sale.refund_of and sale.noted_owed):
            return True
        plain = sale.status == "complete" and not sale.refund_of and sale.went
        if plain and to_pay(sale, ledger.sales.refunds(sale.id)) > 0:
            return True
    return any(
        owed_on(each, "9999-12-31") for each in ledger.purchases.from_(key) if not each.cancelled
    )


def kept_until(settings: Settings, key: str) -> tuple[str, str]:
    """Until when the law wants name and address kept, and why; ("", "") when it does not.

    "unsold" and "open" stand for a date not known yet: stock bought from them is still there, or money
    or goods are open between them and the dealer.
    """
    ledger, last = settings.ledger, ""
    if open_between(ledger, key):
        return "open", _WHY_OPEN
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
    if ends := settings.business.company_year_end:
        year = int(last[:4]) + (last[5:] > ends)
        return years_later(f"{year}-{ends}", _VAT_YEARS), _WHY_COMPANY
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

    When all goes, the lines typed at the stall go too, the records joined to theirs, and every free
    text that names them. Raises UserError.
    """
    ledger = settings.ledger
    known = ledger.people.of(key)
    until, why = kept_until(settings, key)
    needed = _NEEDED if until in ("unsold", "open") or day <= until else ()
    was = [dict(each.row or {}) for each in versions(ledger) if each[:2] == ("people", key)]
    held = {name for row in (write_row(known), *was) for name in row if name not in ("id", "erased")}
    gone = tuple(sorted(held.difference(needed)))
    kept = tuple(name for name in needed if name in held)
    targets: list[Target] = [("people", key, gone)] if gone else []
    targets += _joined(ledger, key)
    targets += _drafts(ledger, _said_of(was))
    earlier: list[Target] = []
    if not needed:
        targets += _typed_lines(ledger, known)
        earlier = _once_said(ledger, _said_of(was), {(table, row) for table, row, _ in targets})
    if not targets and not earlier:
        return Erasure(key, (), kept, until if kept else "", why if kept else "")
    remains = erase(ledger, targets, "details erased on request", earlier=earlier).remains
    return Erasure(key, gone, kept, until if kept else "", why if kept else "", remains)


def _drafts(ledger: Ledger, wanted: Collection[str]) -> list[Target]:
    """What stands unfinished and names the person; drafts given up go with every erasure."""
    return [
        ("drafts", key, WHOLE)
        for key, row in ledger.state.rows.get("drafts", {}).items()
        if any(each in " ".join(str(row).casefold().split()) for each in wanted)
    ]


def _once_said(
    ledger: Ledger, wanted: Collection[str], taken: Collection[tuple[str, str]]
) -> list[Target]:
    """Free text that named the person once and was changed since: what it says now may stay."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for change in versions(ledger):
        where = (change.table, change.key)
        if change.table in _SEARCHED and where not in taken:
            for field in _naming(wanted, change.row or {}):
                found.setdefault(where, {})[field] = None
    return [(table, key, tuple(names)) for (table, key), names in found.items()]


def _joined(ledger: Ledger, key: str) -> list[Target]:
    """The records joined to a person's: what old entries hold of them is not needed twice."""
    fields = tuple(name for name in values_of(Person(id="x")) if name not in ("id", "erased", "joined"))
    joined = [each for each in ledger.people.records() if each.joined == key and not each.erased]
    return [("people", each.id, fields) for each in joined]


def _typed_lines(ledger: Ledger, known: Person) -> list[Target]:
    """The fields of their deals that hold what was typed, or that only a newer program knows; and every
    free text that names them."""
    deals: list[Record] = [
        *ledger.purchases.from_(known.id),
        *ledger.sales.to(known.id),
        *ledger.quotes.for_(known.id),
    ]
    found: dict[tuple[str, str], dict[str, None]] = {}
    for change, deal in ((put(deal), deal) for deal in deals):
        strange = [name for name, _ in deal.later]
        names = [each for each in (*_TYPED, *strange) if (change.row or {}).get(each)]
        if names:
            found[change.table, change.key] = dict.fromkeys(names)
    for table, key, field in mentions(ledger, known):
        found.setdefault((table, key), {})[field] = None
    return [(table, key, tuple(names)) for (table, key), names in found.items()]
