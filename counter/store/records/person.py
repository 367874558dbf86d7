"""People: kept apart from what was bought and sold, so that one can be exported or erased."""

from __future__ import annotations

from typing import Annotated

from counter.store.records.purchase import SELLERS
from counter.values.record import Name, OptionalDay, OptionalName, Record, Words, one_of


class Person(Record, frozen=True):
    """A seller or buyer. Purchases and sales know only the id; `erased` is the day of an erasure,
    `joined` whose record it was joined to: then it holds nothing else."""

    id: Name
    name: Words = ""
    address: Words = ""
    kind: Annotated[str, one_of(*SELLERS, "business")] = ""  # standing for VAT, as a seller
    vat_number: Words = ""
    phone: Words = ""
    email: Words = ""
    first_seen: OptionalDay = ""
    remarks: Words = ""
    erased: OptionalDay = ""
    joined: OptionalName = ""
