"""What stands apart on the market: plates, letterings, cancels and features that price nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from counter.reference.loader import build_all, read_folder
from counter.reference.sources import Source, check_source, read_sources
from counter.reference.stamps import Stamps


@dataclass(frozen=True, slots=True)
class Measure:
    """A figure of the house: how far apart is apart."""

    id: str
    value: Decimal
    text: str
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class NumberPrinted:
    """The series of plates whose printings are those of an issue (the id)."""

    id: str
    series: str
    source: str


@dataclass(frozen=True, slots=True)
class Apart:
    """Plates or letterings of some issues that have a market of their own, and why."""

    id: str
    issues: tuple[str, ...]
    text: str
    source: str
    plates: tuple[str, ...] = ()
    letters: tuple[str, ...] = ()
    certificate: bool = False


@dataclass(frozen=True, slots=True)
class Feature:
    """What makes another thing of any stamp: an observation (`values` "*" is any, `prefix` what the
    value begins with) or the trade's words for it."""

    id: str
    said: str
    source: str
    kind: str = ""
    values: tuple[str, ...] = ()
    prefix: str = ""
    phrases: tuple[str, ...] = ()
    certificate: bool = False


@dataclass(frozen=True, slots=True)
class CancelFamily:
    """Cancels that price one another, and the inks that are ordinary for them ("*" is any); `alone`:
    such a cancel is said where it is there, so a stamp without a word of it has none."""

    id: str
    cancels: tuple[str, ...]
    said: str
    colours: tuple[str, ...]
    source: str
    issues: tuple[str, ...] = ()
    alone: bool = False


@dataclass(frozen=True, slots=True)
class PricedKinds:
    """Kinds of observation that do the same to a price; the id says what."""

    id: str
    kinds: tuple[str, ...]
    source: str


@dataclass(frozen=True, eq=False)
class MarketFacts:
    """Everything that stands apart. `plates` and `letterings` go by (issue id, plate or letters)."""

    measures: Mapping[str, Measure]
    plates: Mapping[tuple[str, str], Apart]
    letterings: Mapping[tuple[str, str], Apart]
    plate_numbers: Mapping[str, frozenset[str]]
    features: tuple[Feature, ...]
    cancels: tuple[CancelFamily, ...]
    does: Mapping[str, str]
    sources: Mapping[str, Source]

    def measure(self, name: str) -> Fraction:
        """A figure of the house as an exact fraction."""
        return Fraction(self.measures[name].value)

    def cancel_family(self, issue: str, cancel: str) -> CancelFamily | None:
        """The family of a cancel on an issue; the closest that names both. None without a cancel."""
        if not cancel or cancel == "none":
            return None
        fits = [
            each
            for each in self.cancels
            if (cancel in each.cancels or "*" in each.cancels)
            and (not each.issues or issue in each.issues)
        ]
        return max(fits, key=lambda each: (bool(each.issues), "*" not in each.cancels), default=None)


def read_market(stamps: Stamps) -> MarketFacts:
    """Read data/market/ and add what the stamps' own numbers say; raises DataFault."""
    tables = read_folder("market")
    known = {**stamps.sources, **read_sources(tables)}
    measures = build_all(Measure, tables, "walls", "measure")
    counted = build_all(NumberPrinted, tables, "walls", "counted")
    apart = build_all(Apart, tables, "walls", "apart")
    features = build_all(Feature, tables, "walls", "feature")
    cancels = build_all(CancelFamily, tables, "walls", "cancel")
    kinds = build_all(PricedKinds, tables, "walls", "kinds")
    for held in (measures, counted, apart, features, cancels, kinds):
        for name, record in held.items():
            check_source(record.source, known, f"walls.toml {name}")
    part = Fraction(measures["plate-apart-by-numbers"].value)
    plates = _by_numbers(stamps, counted.values(), part) | _never_used(stamps)
    for each in apart.values():
        plates |= {(issue, plate): each for issue in each.issues for plate in each.plates}
    return MarketFacts(
        measures=measures,
        plates=plates,
        letterings={
            (i, letters): each
            for each in apart.values()
            for i in each.issues
            for letters in each.letters
        },
        plate_numbers=stamps.plate_numbers,
        features=tuple(features.values()),
        cancels=tuple(cancels.values()),
        does={kind: each.id for each in kinds.values() for kind in each.kinds},
        sources=known,
    )


def _by_numbers(
    stamps: Stamps, counted: Iterable[NumberPrinted], part: Fraction
) -> dict[tuple[str, str], Apart]:
    """Plates of which far fewer were issued than of the commonest of the same issue."""
    found = {}
    for each in counted:
        issued = {}
        for plate in stamps.plates:
            if plate.series == each.series and plate.plate in stamps.plate_numbers[each.id]:
                count = plate.stamps_issued or plate.stamps_issued_both_states
                issued[plate.plate] = (count or 240 * (plate.sheets_printed or 0), plate)
        most = max(count for count, _ in issued.values())
        for number, (count, plate) in issued.items():
            if 0 < count < part * most:
                text = f"about {100 * count // most} issued for every 100 of the commonest plate"
                source = plate.quantity_source or plate.source
                name = f"{each.id}-{number}"
                found[each.id, number] = Apart(name, (each.id,), text, source, (number,), (), True)
    return found


def _never_used(stamps: Stamps) -> dict[tuple[str, str], Apart]:
    """Plates known from registration sheets alone, or never put to press."""
    found = {}
    for issue in stamps.issues.values():
        why = {each.plate: each.why for each in issue.plates_not_regular}
        for number in {*stamps.unused_plates[issue.id], *why} - stamps.plate_numbers[issue.id]:
            records = stamps.plates_of(issue.id, number)
            text = why.get(number) or next(
                (each.status for each in records if each.status), "not in use"
            )
            name = f"{issue.id}-{number}"
            found[issue.id, number] = Apart(name, (issue.id,), text, issue.source, (number,), (), True)
    return found
