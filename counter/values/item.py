"""A stock item: what it is, how it is, where it is, what is asked for it.

Pure values, shared by the judge (describe, price, treat) and the ledger (keep, search). Empty text
and None mean "not noted": never "absent". Money is integer pence. Dates are ISO text.
"""

from __future__ import annotations

import re
from typing import Annotated, ClassVar, Literal

from counter.values.record import Count, Name, OptionalDay, Pence, Record, Says, Words, one_of

Status = Literal["in stock", "on approval", "reserved", "sold", "returned", "withdrawn"]
Attachment = Literal["", "loose", "piece", "front", "cover", "entire"]

SCHEMES = ("", "margin", "global", "ordinary", "none")
"""How VAT is accounted for; "" not yet decided, "none" no VAT at all (unregistered, valid postage)."""
Scheme = Annotated[str, one_of(*SCHEMES)]

_MULTIPLE = re.compile(r"single|pair|(strip|block|irregular)_[1-9][0-9]{0,2}")


def stamps_in(multiple: str) -> int:
    """How many stamps a multiple has: strip_3 has 3."""
    count = multiple.rpartition("_")[2]
    return int(count) if count.isdecimal() else {"pair": 2}.get(multiple, 1)


def _no_multiple(value: object) -> str:
    right = isinstance(value, str) and _MULTIPLE.fullmatch(value)
    return "" if right else "must be single, pair, strip_3, block_4 or irregular_5 (any number)"


Multiple = Annotated[str, Says(_no_multiple, looks=True)]


class Fault(Record, frozen=True):
    """A fault by its term in the reference ("thin", "crease"...) and where it is, in free words."""

    IN_FULL: ClassVar[bool] = True

    term: Name
    where: Words = ""


class CoverFacts(Record, frozen=True):
    """What is known of the cover an item is on; `finding` is the cover check's own words."""

    IN_FULL: ClassVar[bool] = True

    date: Words = ""
    town: Words = ""
    to: Words = ""
    tied: Words = ""
    marks: Words = ""
    finding: Words = ""


class TreatmentDone(Record, frozen=True):
    """A treatment carried out: date, treatment id, product, strength, seconds, words, by whom."""

    IN_FULL: ClassVar[bool] = True

    date: OptionalDay
    treatment: Name
    product: Words = ""
    strength: Words = ""
    seconds: Count | None = None
    before: Words = ""
    after: Words = ""
    by: Words = ""


class Certificate(Record, frozen=True):
    """An expert committee's paper that goes with the item: whose, when, number, what it says."""

    IN_FULL: ClassVar[bool] = True

    body: Name
    date: Words = ""
    number: Words = ""
    opinion: Words = ""


class Item(Record, frozen=True):
    """One line of stock, by its stock number."""

    number: Name
    # what it is
    issue: Words = ""  # reference issue id; "" when not identified
    denomination: Words = ""  # for issues of several values
    colour: Words = ""
    plate: Words = ""
    letters: tuple[Words, ...] = ()  # one lettering a stamp, reading order: ("KC", "KD")
    multiple: Multiple = "single"  # single, pair, strip_3, block_4, irregular_5
    watermark: Words = ""  # as seen; "" = not looked at
    alphabet: Words = ""
    die: Words = ""
    words: Words = ""  # free words where the fields above do not say it
    # how it is
    margins: tuple[Words, ...] = ()  # one a stamp: margin term ids, or "4" "3" "2" "1" "0"
    gum: Words = ""
    cancel: Words = ""
    cancel_colour: Words = ""
    cancel_number: Words = ""
    faults: tuple[Fault, ...] = ()
    attachment: Attachment = ""
    cover: CoverFacts | None = None
    treatments: tuple[TreatmentDone, ...] = ()
    certificate: Certificate | None = None
    # the shop
    kept: Words = ""  # where it is kept: "red album p. 4"
    asking: Pence | None = None
    cost: Pence | None = None  # VAT and premium included; never shown to a customer
    status: Status = "in stock"
    purchase: Words = ""  # id of the purchase it came in
    scheme: Scheme = ""  # how VAT is accounted for
    photographs: tuple[Words, ...] = ()
    reference: Words = ""  # the owner's own
    remarks: Words = ""
    noted: OptionalDay = ""  # date it came into stock

    @property
    def open_price(self) -> int | None:
        """What a customer may be told is asked: nothing once it is sold, for what it made is
        the dealer's own."""
        return self.asking if self.status != "sold" else None
