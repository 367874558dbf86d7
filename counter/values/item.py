"""A stock item: what it is, how it is, where it is, what is asked for it.

Pure values, shared by the judge (describe, price, treat) and the ledger (keep, search). Empty text
and None mean "not noted": never "absent". Money is integer pence. Dates are ISO text.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, fields
from typing import Any, Literal

Status = Literal["in stock", "on approval", "reserved", "sold", "returned", "withdrawn"]
Attachment = Literal["", "loose", "piece", "front", "cover", "entire"]


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault by its term in the reference ("thin", "crease"...) and where it is, in free words."""

    term: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class CoverFacts:
    """What is known of the cover an item is on; `finding` is the cover check's own words."""

    date: str = ""
    town: str = ""
    to: str = ""
    tied: str = ""
    marks: str = ""
    finding: str = ""


@dataclass(frozen=True, slots=True)
class TreatmentDone:
    """A treatment carried out: date, treatment id, product, strength, seconds, words, by whom."""

    date: str
    treatment: str
    product: str = ""
    strength: str = ""
    seconds: int | None = None
    before: str = ""
    after: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class Certificate:
    """An expert committee's paper that goes with the item: whose, when, number, what it says."""

    body: str
    date: str = ""
    number: str = ""
    opinion: str = ""


@dataclass(frozen=True, slots=True)
class Item:
    """One line of stock, by its stock number."""

    number: str
    # what it is
    issue: str = ""  # reference issue id; "" when not identified
    denomination: str = ""  # for issues of several values
    colour: str = ""
    plate: str = ""
    letters: tuple[str, ...] = ()  # one lettering a stamp, reading order: ("KC", "KD")
    multiple: str = "single"  # single, pair, strip_3, block_4, irregular_5
    watermark: str = ""  # as seen; "" = not looked at
    alphabet: str = ""
    die: str = ""
    words: str = ""  # free words where the fields above do not say it
    # how it is
    margins: tuple[str, ...] = ()  # one a stamp: margin term ids, or "4" "3" "2" "1" "0"
    gum: str = ""
    cancel: str = ""
    cancel_colour: str = ""
    cancel_number: str = ""
    faults: tuple[Fault, ...] = ()
    attachment: Attachment = ""
    cover: CoverFacts | None = None
    treatments: tuple[TreatmentDone, ...] = ()
    certificate: Certificate | None = None
    # the shop
    kept: str = ""  # where it is kept: "red album p. 4"
    asking: int | None = None  # pence
    cost: int | None = None  # pence, VAT and premium included; never shown to a customer
    status: Status = "in stock"
    purchase: str = ""  # id of the purchase it came in
    scheme: str = ""  # "", margin, global, ordinary, none: how VAT is accounted for
    photographs: tuple[str, ...] = ()
    reference: str = ""  # the owner's own
    remarks: str = ""
    noted: str = ""  # date it came into stock


def item_to_row(item: Item) -> dict[str, Any]:
    """The item as plain JSON values; fields left at their default are left out."""
    row = {
        each.name: getattr(item, each.name)
        for each in fields(item)
        if getattr(item, each.name) != getattr(_BLANK, each.name)
    }
    for name in ("faults", "treatments"):
        if name in row:
            row[name] = [asdict(each) for each in row[name]]
    for name in ("cover", "certificate"):
        if name in row:
            row[name] = asdict(row[name])
    for name in ("letters", "margins", "photographs"):
        if name in row:
            row[name] = list(row[name])
    row["number"] = item.number
    return row


def item_from_row(row: dict[str, Any]) -> Item:
    """The item of a row made by `item_to_row`; raises TypeError on fields that are not an item's."""
    values = dict(row)
    for name in ("letters", "margins", "photographs"):
        if name in values:
            values[name] = tuple(values[name])
    if "faults" in values:
        values["faults"] = tuple(Fault(**each) for each in values["faults"])
    if "treatments" in values:
        values["treatments"] = tuple(TreatmentDone(**each) for each in values["treatments"])
    if values.get("cover"):
        values["cover"] = CoverFacts(**values["cover"])
    if values.get("certificate"):
        values["certificate"] = Certificate(**values["certificate"])
    return Item(**values)


_BLANK = Item(number="")
