"""Invented pieces that could exist: real issues, plates and check letters of the reference."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import Any

from msgspec.structs import replace

from counter.reference.stamps import Stamps
from counter.reference.stamps_issue import Issue
from counter.values.item import CoverFacts, Fault, Item, TreatmentDone
from counter.values.record import read_record
from seed_demo.people import TOWNS

_MULTIPLES = ("pair", "pair", "strip_3", "block_4")
_MARGINS = ("4", "4", "4", "4", "3", "3", "3", "2", "close", "touched", "four_large", "cut_into")
_FAULTS = (
    "crease",
    "thin",
    "tear",
    "closed_tear",
    "stain",
    "rubbed",
    "pinhole",
    "light_toning",
    "bend",
)
_PERFORATED_FAULTS = (*_FAULTS, "pulled_perf", "clipped_perf")
_WHERE = ("at top", "at foot", "at left", "at right", "top left corner", "lower right corner", "")
_CANCELS = {
    "cross_1840": (("maltese_cross", "red"), ("maltese_cross", "red"), ("maltese_cross", "black")),
    "cross_1841": (("maltese_cross", "black"),),
    "cross_or_numeral": (("maltese_cross", "black"), ("numeral", "black"), ("numeral", "blue")),
    "numeral": (("numeral", "black"), ("numeral", "black"), ("numeral", "green")),
    "duplex": (("duplex", "black"), ("numeral", "black"), ("cds", "black")),
    "squared": (("squared_circle", "black"), ("cds", "black")),
    "cds": (("cds", "black"),),
    "machine": (("machine", "black"), ("cds", "black")),
}
_PERIODS = {
    "cross_1840": ("1840-05-12", "1841-01-30"),
    "cross_1841": ("1841-03-01", "1841-12-20"),
    "numeral": ("1845-01-10", "1857-12-10"),
    "duplex": ("1866-01-10", "1879-11-30"),
    "squared": ("1884-01-10", "1897-11-30"),
    "cds": ("1903-01-10", "1909-11-30"),
    "machine": ("1914-02-10", "1918-01-30"),
}


@dataclass(frozen=True)
class Kind:
    """A line of kinds.toml."""

    issue: str
    stock: int
    sold: int
    price: int
    used: str
    value: str = ""
    plated: int = 0
    mint: int = 0
    cover: int = 0


def piece(rng: Random, stamps: Stamps, kind: Kind) -> Item:
    """One invented piece of a kind, without number, price or cost."""
    issue = stamps.issues[kind.issue]
    mint = rng.randrange(100) < kind.mint
    covered = not mint and rng.randrange(100) < kind.cover
    multiple = "single" if covered or rng.random() > 0.09 else rng.choice(_MULTIPLES)
    letters = _letters(rng, issue, multiple)
    plates = sorted(stamps.plate_numbers[kind.issue], key=lambda plate: (len(plate), plate))
    item = Item(
        "",
        kind.issue,
        denomination=kind.value,
        colour=_colour(rng, issue, kind.value),
        plate=rng.choice(plates) if plates and rng.randrange(100) < kind.plated else "",
        letters=letters,
        multiple=multiple,
        watermark=_watermark(rng, issue),
        margins=_margins(rng, issue, multiple),
        faults=_faults(rng, issue, mint),
    )
    item = _unused(rng, item) if mint else _used(rng, item, kind)
    if covered:
        item = _on_cover(rng, item, kind)
    return _treated(rng, item)


def _letters(rng: Random, issue: Issue, multiple: str) -> tuple[str, ...]:
    """Check letters inside the issue's own sheet; a multiple's run on in step."""
    known = issue.characters
    if not known.letters or not known.rows:
        return ()
    wide, high = {"pair": (2, 1), "strip_3": (3, 1), "block_4": (2, 2)}.get(multiple, (1, 1))
    row, column = rng.randint(0, known.rows - high), rng.randint(0, known.columns - wide)
    pairs = [
        chr(65 + row + down) + chr(65 + column + across)
        for down in range(high)
        for across in range(wide)
    ]
    return tuple(pair[::-1] + pair if known.letters == 4 else pair for pair in pairs)


def _colour(rng: Random, issue: Issue, value: str) -> str:
    """Noted for issues of several values, and now and then a shade for the others."""
    shades = next((each.colours for each in issue.characters.stamps if each.value == value), ())
    if value:
        return shades[0] if shades else ""
    own = issue.characters.stamps[0].colours
    return rng.choice(own[1:]) if len(own) > 1 and rng.random() < 0.12 else ""


def _watermark(rng: Random, issue: Issue) -> str:
    marks = issue.characters.watermarks
    return marks[0] if len(marks) == 1 and rng.random() < 0.3 else ""


def _margins(rng: Random, issue: Issue, multiple: str) -> tuple[str, ...]:
    if "imperforate" not in issue.characters.separations:
        return ()
    count = {"pair": 2, "strip_3": 3, "block_4": 4}.get(multiple, 1)
    return tuple(rng.choice(_MARGINS) for _ in range(count))


def _faults(rng: Random, issue: Issue, mint: bool) -> tuple[Fault, ...]:
    imperforate = "imperforate" in issue.characters.separations
    kinds = _FAULTS if imperforate else _PERFORATED_FAULTS
    how_many = rng.choices((0, 1, 2), (66, 28, 6))[0]
    found = tuple(Fault(term, rng.choice(_WHERE)) for term in rng.sample(kinds, how_many))
    return (*found, Fault("hinge_remains")) if mint and rng.random() < 0.3 else found


def _unused(rng: Random, item: Item) -> Item:
    return replace(item, cancel="none", gum=rng.choice(("unused_og", "hinged", "hinged", "no_gum")))


def _used(rng: Random, item: Item, kind: Kind) -> Item:
    cancel, colour = rng.choice(_CANCELS[kind.used])
    number = str(rng.randint(1, 936)) if cancel in ("numeral", "duplex") and rng.random() < 0.6 else ""
    return replace(item, cancel=cancel, cancel_colour=colour, cancel_number=number)


def _on_cover(rng: Random, item: Item, kind: Kind) -> Item:
    used = kind.used
    if used == "cross_or_numeral":
        used = "numeral" if item.cancel == "numeral" else "cross_1841"
    first, last = _PERIODS[used]
    year = rng.randint(int(first[:4]), int(last[:4]))
    day = f"{year}-{rng.randint(1, 12):02}-{rng.randint(1, 28):02}"
    start, end = rng.sample(TOWNS, 2)
    tied = rng.choice(("tied", "tied", "not_tied", ""))
    facts = CoverFacts(min(max(day, first), last), start, end, tied=tied)
    return replace(item, attachment=rng.choice(("cover", "entire", "cover", "front")), cover=facts)


def _treated(rng: Random, item: Item) -> Item:
    """Now and then a dry treatment, noted as it was done."""
    if item.attachment or item.gum or rng.random() > 0.03:
        return item
    done = TreatmentDone(f"2024-{rng.randint(1, 11):02}-15", "press_dry", before="curled", after="flat")
    return replace(item, treatments=(replace(done, by="own hand"),))


def from_table(row: dict[str, Any]) -> Item:
    """A piece written out by hand in specials.toml, without its price and cost."""
    plain = {key: value for key, value in row.items() if key not in ("ask", "cost")}
    return read_record(Item, {"number": "", **plain})
