"""People as the desk shows them: found by a few letters, what is held in lines, what erasing left."""

from __future__ import annotations

from dataclasses import dataclass

from counter.desk.trade.trading import Trading
from counter.store.records.person import Person
from counter.store.records.purchase import SELLERS
from counter.trade.people import complete_person
from counter.trade.personal_data import Erasure
from counter.values.errors import InputError

#: What can be noted of a person: key and label.
DETAILS = (
    ("name", "name"),
    ("address", "address"),
    ("kind", "VAT standing as a seller"),
    ("vat_number", "VAT number"),
    ("phone", "telephone"),
    ("email", "e-mail"),
    ("remarks", "remarks"),
)
STANDINGS = tuple((each, each) for each in SELLERS if each)


@dataclass(frozen=True, slots=True)
class PersonSummary:
    """A person with how often they sold to us and bought from us."""

    person: Person
    sold_to_us: int
    bought_from_us: int


def people_summaries(trading: Trading, words: str = "") -> list[PersonSummary]:
    """Everybody whose number, name or address holds every word, by name; the erased last."""
    ledger = trading.ledger
    wanted = words.casefold().split()
    found = [
        PersonSummary(each, len(ledger.purchases.from_(each.id)), len(ledger.sales.to(each.id)))
        for each in ledger.people.records()
        if not each.joined
        and all(word in f"{each.id} {each.name} {each.address}".casefold() for word in wanted)
    ]
    return sorted(found, key=lambda each: (not each.person.name, each.person.name.casefold()))


def known(trading: Trading, key: str) -> Person:
    """A person by number. Raises UserError when there is none."""
    return trading.ledger.people.of(key)


def note_details(trading: Trading, key: str, details: dict[str, str]) -> Person:
    """Note details of a person; the number and an erasure cannot be set. Raises UserError."""
    if details.keys() & {"id", "erased", "joined"}:
        raise InputError("The number and the erasure of a person cannot be set.")
    return complete_person(trading.ledger, key, **details)


def erasure_words(done: Erasure) -> list[str]:
    """What became of a request to be forgotten: what went, what stays, until when and why."""
    lines = [f"Erased: {', '.join(done.gone) or 'nothing was left to erase'}."]
    if done.kept:
        lines.append(f"Kept {until_words(done.until)}: {', '.join(done.kept)}; {done.why}.")
    return [*lines, *done.remains]


def until_words(until: str) -> str:
    """Until when details are kept, in words."""
    if until == "open":
        return "while money or goods are open between you"
    return "while stock bought from them is unsold" if until == "unsold" else f"until {until}"
