"""People: kept apart from what was bought and sold, so that one can be exported or erased."""

from __future__ import annotations

from dataclasses import dataclass

from counter.store.records import rules
from counter.store.records.purchase import SELLERS
from counter.store.records.shape import Shape, ruled


@dataclass(frozen=True, slots=True)
class Person:
    """A seller or buyer. Purchases and sales know only the id; `erased` is the day of an erasure."""

    id: str = ruled(rules.name)
    name: str = ruled(rules.words, "")
    address: str = ruled(rules.words, "")
    kind: str = ruled(rules.one_of(*SELLERS, "business"), "")  # standing for VAT, as a seller
    vat_number: str = ruled(rules.words, "")
    phone: str = ruled(rules.words, "")
    email: str = ruled(rules.words, "")
    first_seen: str = ruled(rules.optional_day, "")
    remarks: str = ruled(rules.words, "")
    erased: str = ruled(rules.optional_day, "")


PERSON: Shape[Person] = Shape(Person, "person")
