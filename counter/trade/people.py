"""People: found by name, name and address parted as typed, completed later, two records joined."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec.structs import replace

from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.store.records.person import Person
from counter.store.records.purchase import SELLERS
from counter.values.errors import InputError, UserError
from counter.values.record import values_of

#: What may follow a comma and still belong to the name.
_SUFFIX = re.compile(
    r"(?:ltd|limited|plc|llp|esq|jn?r|sn?r|ph\.?d|frps\S*|o\.?b\.?e|m\.?b\.?e)\.?", re.I
)
_TITLE = re.compile(r"(?:mr|mrs|miss|ms|dr|prof|rev|sir|lady|lord|capt|col|major)\b\.?\s*", re.I)
_PLACE = re.compile(
    r"\d|\b(?:street|st|road|rd|lane|ln|avenue|ave|close|house|cottage|farm|hall|square|terrace|court|"
    r"drive|way|hill|green|park|place|grove|gardens|crescent|po box)\b",
    re.I,
)


def name_and_address(words: str) -> tuple[str, str]:
    """What was typed, parted: "Mrs Penny Brown, 4 High St, Ludmere" is a name and an address.

    The address begins at the first comma after which there is a number or a word of streets, or which
    follows a name of two words and more that begins with a title. "Brown, Penny" stays a name.
    """
    parts = [" ".join(each.split()) for each in words.split(",")]
    taken = 1
    while taken < len(parts) and _SUFFIX.fullmatch(parts[taken]):
        taken += 1
    name, rest = ", ".join(parts[:taken]), ", ".join(each for each in parts[taken:] if each)
    titled = _TITLE.match(name) and len(name.split()) > 1
    if rest and name and (titled or _PLACE.search(rest)):
        return name, rest
    return ", ".join(each for each in parts if each), ""


def person_for(ledger: Ledger, typed: str, day: str) -> tuple[Person | None, list[Change]]:
    """The one person of a name, or a new one with the change that notes them; None for no name.

    An address typed behind the name is noted with it, and tells two of a name apart. A record joined
    to another is that other. Raises UserError when several go by the name: then say the id.
    """
    words = " ".join(typed.split())
    if not words:
        return None, []
    if known := ledger.people.find(words):
        return (ledger.people.of(known.joined) if known.joined else known), []
    name, address = name_and_address(words)
    found = ledger.people.named(name)
    if address:
        same = [each for each in found if _alike(each.address, address)]
        found = same or [each for each in found if not each.address]
    if len(found) > 1:
        ids = ", ".join(f"{each.id} ({each.address or 'no address'})" for each in found)
        raise UserError(f"Several people are called {name}: say which by number, {ids}.")
    if found and (found[0].address or not address):
        return found[0], []
    if found:
        addressed = replace(found[0], address=address)
        return addressed, [put(addressed)]
    new = Person(ledger.next_number("people"), name=name, address=address, first_seen=day)
    return new, [put(new)]


def _alike(one: str, other: str) -> bool:
    """Whether two addresses are the same but for commas, stops and case."""
    return re.findall(r"\w+", one.casefold()) == re.findall(r"\w+", other.casefold())


def like_named(ledger: Ledger, person: Person) -> list[Person]:
    """Other records that may be the same person: the surname alike, and no first name that differs."""
    surname, given = _surname(person.name)
    found = []
    for each in ledger.people.records():
        other, theirs = _surname(each.name)
        same = surname and surname == other and each.id != person.id and not each.joined
        parted = each.address and person.address and not _alike(each.address, person.address)
        if same and not parted and all(a[0] == b[0] for a, b in zip(given, theirs, strict=False)):
            found.append(each)
    return found


def _surname(name: str) -> tuple[str, list[str]]:
    words = re.findall(r"[^\W\d_][\w'-]*", _TITLE.sub("", name.casefold()).split(",")[0])
    return (words[-1], words[:-1]) if words else ("", [])


def like_words(ledger: Ledger, person: Person | None) -> Iterator[str]:
    """For somebody just noted for the first time: who else it may be, to be joined by the dealer."""
    if person and not ledger.people.holds(person.id):
        for each in like_named(ledger, person):
            yield (
                f"{person.name} is new as {person.id}; {each.name} is {each.id}: if that is one person, "
                f"join them with counter people {each.id} --join {person.id}."
            )


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


def join_people(ledger: Ledger, key: str, other: str) -> Person:
    """Join another record to a person's: their deals and missing details come over, in one entry.

    The other number goes on meaning this person. Raises UserError.
    """
    known, gone = ledger.people.of(key), ledger.people.of(other)
    if known.id == gone.id:
        raise InputError(f"{key} cannot be joined to itself.")
    if known.joined or gone.joined or known.erased or gone.erased:
        raise UserError(f"{key} or {other} was joined or erased before.")
    had = values_of(gone)
    missing = {name: had[name] for name, value in values_of(known).items() if not value and had[name]}
    remarks = "\n".join(filter(None, (known.remarks, gone.remarks)))
    first = min(filter(None, (known.first_seen, gone.first_seen)), default="")
    whole = replace(known, **(missing | {"remarks": remarks, "first_seen": first}))
    changes = [put(whole), put(Person(id=gone.id, joined=known.id))]
    changes += [put(replace(each, seller=key)) for each in ledger.purchases.from_(other)]
    changes += [put(replace(each, buyer=key)) for each in ledger.sales.to(other)]
    changes += [put(replace(each, customer=key)) for each in ledger.quotes.for_(other)]
    before = [each for each in ledger.people.records() if each.joined == other]
    changes += [put(replace(each, joined=key)) for each in before]
    ledger.note("people joined", changes)
    return whole
