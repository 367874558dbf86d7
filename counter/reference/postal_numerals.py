"""Barred numerals: which office had a number, in which series and days, and what an order tells.

Ask `postal.numerals`: `offices("466", "england_wales")` for a number, `of_place` for a town,
`between` for what the alphabetical allotment says of a number that is not listed. A number that has
no record is not established; a record from memory never speaks against a cover (`Numeral.sourced`).
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, fields
from functools import cached_property
from itertools import pairwise
from typing import Literal

from counter.reference.loader import DataFault, Tables, build_all
from counter.reference.postal_marks import Weight
from counter.values.dates import When, read_date
from counter.values.errors import InputError

Series = Literal["england_wales", "scotland", "ireland", "london_inland", "london_district", "abroad"]

_ABROAD = re.compile(r"[A-G]\d{1,3}|[NSY]\d|[BCGMS]")
_NOT_LETTER = re.compile(r"[^a-z]")
_DAY_FIELDS = ("first", "last", "sent", "first_day")


@dataclass(frozen=True, slots=True)
class Numeral:
    """An office's number (or, with `upto`, a run of numbers) in a series.

    `first` and `last` are whole or partial days: of the office's use at home, of British stamps in
    use there abroad; empty when no source tells. `list_name` is the name it had in the alphabetical
    list where that differs, `in_order` false where it stands outside the list. `british_stamps` is
    false where the obliterator is known on a colony's own stamps only. `seen` are days of dated items.
    """

    id: str
    series: Series
    number: str
    office: str
    confidence: str
    source: str
    upto: str = ""
    list_name: str = ""
    first: str = ""
    last: str = ""
    in_order: bool = True
    british_stamps: bool = True
    seen: tuple[str, ...] = ()
    kind: str = ""
    also_source: str = ""
    date_source: str = ""
    seen_source: str = ""
    note: str = ""

    @property
    def sourced(self) -> bool:
        """Whether a text says so; what is only remembered may caution and never condemns."""
        return self.source != "memory" and self.confidence != "low"

    @property
    def names(self) -> tuple[str, ...]:
        """Every name its office may be asked by: "Kingston" and "Jamaica"; "Demerara"."""
        parts = re.split(r"[,()]", f"{self.office},{self.list_name}")
        return tuple(dict.fromkeys(name for part in parts if (name := part.strip())))

    def use(self, when: When) -> Literal["", "fits", "before", "after"]:
        """How a date stands to the days of use: "before" or "after" only where no day of it fits."""
        if self.first and when.compared(read_date(self.first)) == "before":
            return "before"
        if self.last and when.compared(read_date(self.last)) == "after":
            return "after"
        return "fits" if self.first or self.last else ""


@dataclass(frozen=True, slots=True)
class NumberOrder:
    """A run of numbers given out in alphabetical order of the offices: an inference with `limits`.

    `strength` is the most it may say against a cover of `first_day` to `last_day`; above `sure_upto`
    it is weak. `sample` are the sourced numbers that show the order.
    """

    id: str
    series: Series
    first: str
    last: str
    first_day: str
    last_day: str
    strength: Weight
    text: str
    limits: str
    confidence: str
    source: str
    sample: tuple[str, ...]
    sure_upto: str = ""
    also_source: str = ""


@dataclass(frozen=True, slots=True)
class SeriesShape:
    """What a series looks like and which cancel record it is; `first_day` is its first day known."""

    id: Series
    cancel: str
    shape: str
    first_allotment: str
    first_day: str
    confidence: str
    source: str
    other_allotment: str = ""
    sent: str = ""
    earliest_office: str = ""
    use: str = ""
    later_end: str = ""
    revised: tuple[str, ...] = ()
    also_source: str = ""


@dataclass(frozen=True, slots=True)
class ReadingRule:
    """What to heed in reading a number."""

    id: str
    text: str
    confidence: str
    source: str
    also_source: str = ""


@dataclass(frozen=True, slots=True)
class Obliterator:
    """What is told of obliterators by office: their types, when they came and went."""

    id: str
    series: str
    text: str
    confidence: str
    source: str
    office: str = ""
    first: str = ""
    last: str = ""
    seen: tuple[str, ...] = ()
    also_source: str = ""


@dataclass(frozen=True, slots=True)
class Between:
    """Where a number that is not listed stands: between two sourced offices of an alphabetical run.

    `below` or `above` is None at an open end. `strength` is the most it may say against a town.
    """

    number: str
    order: NumberOrder
    below: Numeral | None
    above: Numeral | None
    strength: Weight

    def fits(self, town: str) -> Literal["fits", "near", "no"]:
        """Whether a town of that name may stand here: "no" only two letters or more outside.

        A name just outside, or under a neighbouring letter, is "near" and says nothing: the list was
        not kept to the letter, and a sub-office stands beside its head office.
        """
        name = plain_name(town)
        low = plain_name(_listed(self.below)) if self.below else "a"
        high = plain_name(_listed(self.above)) if self.above else "zz"
        if not name or low <= name <= high:
            return "fits"
        outside = max(ord(low[0]) - ord(name[0]), ord(name[0]) - ord(high[0]))
        return "no" if outside >= 2 else "near"

    def words(self) -> str:
        """880 stands between 683 Salisbury and 930 York."""
        ends = [f"{each.number} {_listed(each)}" for each in (self.below, self.above) if each]
        if len(ends) == 2:
            return f"{self.number} stands between {ends[0]} and {ends[1]}"
        return f"{self.number} stands {'after' if self.below else 'before'} {ends[0]}"


@dataclass(frozen=True)
class Numerals:
    """Every number known, and the orders, shapes and rules that hold of them."""

    records: dict[str, Numeral]
    orders: dict[str, NumberOrder]
    shapes: dict[str, SeriesShape]
    rules: dict[str, ReadingRule]
    obliterators: dict[str, Obliterator]

    @cached_property
    def _by_number(self) -> dict[str, tuple[Numeral, ...]]:
        found: dict[str, list[Numeral]] = defaultdict(list)
        for record in self.records.values():
            for number in _numbers(record):
                found[number].append(record)
        return {number: tuple(records) for number, records in found.items()}

    def offices(self, number: str, series: str = "") -> tuple[Numeral, ...]:
        """The offices that had a number, sourced ones first; empty: not established.

        `series` is england_wales, scotland, ireland or abroad; "" asks every series, for a numeral
        whose shape is not known. Leading zeros count. A run (A27 to A78: the country, or a naval
        station) answers only where no record of its own names an office that used British stamps.
        """
        found = self._by_number.get(clean_number(number), ())
        mine = [each for each in found if series in ("", each.series)]
        single = [each for each in mine if not each.upto and each.british_stamps] or mine
        return tuple(sorted(single, key=lambda each: not each.sourced))

    def of_place(self, name: str, series: str = "") -> tuple[Numeral, ...]:
        """The numbers known of an office, by any of its names ("Kingston", "Jamaica")."""
        wanted = plain_name(name)
        found = [
            each
            for each in self.records.values()
            if series in ("", each.series) and any(plain_name(one) == wanted for one in each.names)
        ]
        return tuple(sorted(found, key=lambda each: not each.sourced))

    def series_of(self, cancel_type: str) -> str:
        """The series of a cancel record ("num_scotland_1844"); "" when its shape tells none."""
        return next((shape.id for shape in self.shapes.values() if shape.cancel == cancel_type), "")

    def between(self, number: str, series: str, when: When | None = None) -> Between | None:
        """Where a number without a sourced record stands in the alphabetical run of its series.

        None where no run holds it, where the number is sourced, or where `when` is given and some of
        its days lie outside those in which the order holds. Only sourced neighbours are used.
        """
        clean = clean_number(number)
        order = next((each for each in self.orders.values() if _holds(each, clean, series)), None)
        if order is None or any(each.sourced and not each.upto for each in self.offices(clean, series)):
            return None
        if when and not _days_hold(order, when):
            return None
        at = _figure(clean)
        run = sorted(_run(self.records.values(), order), key=lambda each: _figure(each.number))
        below = [each for each in run if _figure(each.number) < at]
        above = [each for each in run if _figure(each.number) > at]
        sure = bool(above) and (not order.sure_upto or at <= _figure(order.sure_upto))
        strength = order.strength if sure or order.strength == "none" else "weak"
        if not below and not above:
            return None
        return Between(
            clean, order, below[-1] if below else None, above[0] if above else None, strength
        )


def clean_number(number: str) -> str:
    """As struck, capitals, no spaces: " a01 " is A01; 036 stays 036."""
    return re.sub(r"\s+", "", number).upper()


def is_code_abroad(number: str) -> bool:
    """Whether a number's form is that of an office abroad (rule numeral_letter): A01, C51, C, N1.

    It ends the inland rate. London district marks (N, S, E.C. with a figure) look like some of these:
    for a letter posted in London ask first for the shape.
    """
    return bool(_ABROAD.fullmatch(clean_number(number)))


def read_numerals(tables: Tables) -> Numerals:
    """Build and check the numerals of `data/postal`; raises DataFault naming file, record and field."""
    records: dict[str, Numeral] = {}
    for file in (stem for stem in tables if stem.startswith("numerals_")):
        records |= build_all(Numeral, tables, file, "numeral")
    numerals = Numerals(
        records=records,
        orders=build_all(NumberOrder, tables, "numeral_orders", "order"),
        shapes=build_all(SeriesShape, tables, "numeral_orders", "series_shape"),
        rules=build_all(ReadingRule, tables, "numeral_orders", "reading_rule"),
        obliterators=build_all(Obliterator, tables, "numeral_orders", "obliterator"),
    )
    for subject in fields(numerals):
        for name, record in getattr(numerals, subject.name).items():
            _check_days(record, f"postal numerals {name}")
    for order in numerals.orders.values():
        _check_order(numerals, order)
    return numerals


def _check_days(record: object, where: str) -> None:
    ends = ("first_day", "last_day") if isinstance(record, NumberOrder) else _DAY_FIELDS
    written = [(name, day) for name in ends if (day := getattr(record, name, ""))]
    written += [("seen", day) for day in getattr(record, "seen", ())]
    for name, day in written:
        try:
            read_date(day)
        except InputError as bad:
            raise DataFault(f"{where}.{name}: {bad}") from None
    dates = {name: read_date(day) for name, day in written}
    if "first" in dates and "last" in dates and dates["first"].earliest > dates["last"].latest:
        raise DataFault(f"{where}.last: ends before it begins")


def _check_order(numerals: Numerals, order: NumberOrder) -> None:
    """The sourced numbers of a run stand in alphabetical order, else the run proves nothing."""
    run = sorted(_run(numerals.records.values(), order), key=lambda each: _figure(each.number))
    for one, other in pairwise(run):
        if plain_name(_listed(one)) > plain_name(_listed(other)):
            where = f"postal numerals {other.id}.office"
            raise DataFault(f"{where}: {_listed(other)} does not follow {_listed(one)} ({order.id})")


def _run(records: Iterable[Numeral], order: NumberOrder) -> list[Numeral]:
    return [
        each
        for each in records
        if each.sourced and each.in_order and not each.upto and _holds(order, each.number, each.series)
    ]


def _holds(order: NumberOrder, number: str, series: str) -> bool:
    if series != order.series or number.startswith("0") or _letter(number) != _letter(order.first):
        return False
    return _figure(order.first) <= _figure(number) <= _figure(order.last)


def _days_hold(order: NumberOrder, when: When) -> bool:
    days = when.earliest.isoformat(), when.latest.isoformat()
    return order.first_day <= days[0] and days[1] <= order.last_day


def _numbers(record: Numeral) -> tuple[str, ...]:
    """Every number of a record; a run counts on from its first, its figures kept."""
    if not record.upto:
        return (record.number,)
    letter, width = _letter(record.number), len(record.number) - len(_letter(record.number))
    run = range(_figure(record.number), _figure(record.upto) + 1)
    return tuple(f"{letter}{figure:0{width}d}" for figure in run)


def _letter(number: str) -> str:
    return number.rstrip("0123456789")


def _figure(number: str) -> int:
    return int(number[len(_letter(number)) :] or 0)


def _listed(record: Numeral) -> str:
    return record.list_name or record.names[0]


def plain_name(name: str) -> str:
    """A name for comparing: small letters only, so that St. Ann's is stanns."""
    return _NOT_LETTER.sub("", name.casefold())
