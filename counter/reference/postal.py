"""Postal history: rates, fees, charges, cancels, marks, ink changes, checks, transit, days, terms.

Every record keeps its id and names its source; every reference from one to another is checked when
the subject is read.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any, TypeVar

from counter.reference.loader import DATA, DataFault, Tables, build_all, read_folder
from counter.reference.postal_checks import CoverCheck, KeyDate, Note, OpenPoint, Transit
from counter.reference.postal_marks import Cancel, InkChange, Mark
from counter.reference.postal_numerals import (
    NumberOrder,
    Numeral,
    Numerals,
    Obliterator,
    SeriesShape,
    plain_name,
    read_numerals,
)
from counter.reference.postal_rates import ChargeRule, Fee, PostalRule, Rate
from counter.reference.postal_terms import GradedTerm, PostTown, Term
from counter.reference.sources import Source, check_source, read_sources
from counter.values.dates import read_date
from counter.values.errors import InputError

Record = TypeVar("Record")
_SOURCE_FIELDS = ("source", "also_source", "date_source", "last_source", "effect_source", "seen_source")
_PARTLY_DATED = (Numeral, NumberOrder, SeriesShape, Obliterator, PostalRule)
_DAY_FIELDS = ("first", "last", "day", "proved_before", "other_numbers_first")


@dataclass(frozen=True, eq=False)  # one object, known by itself: what it makes certain is kept
class Postal:
    """All postal facts, each subject by id and in the order of its file."""

    sources: dict[str, Source]
    rates: dict[str, Rate]
    fees: dict[str, Fee]
    charge_rules: dict[str, ChargeRule]
    cancels: dict[str, Cancel]
    marks: dict[str, Mark]
    ink_changes: dict[str, InkChange]
    checks: dict[str, CoverCheck]
    transit: dict[str, Transit]
    key_dates: dict[str, KeyDate]
    notes: dict[str, Note]
    rate_rules: dict[str, Note]
    open_points: dict[str, OpenPoint]
    book_rules: dict[str, PostalRule]
    multiples: dict[str, Term]
    cover_terms: dict[str, Term]
    margins: dict[str, GradedTerm]
    faults: dict[str, GradedTerm]
    places: dict[str, PostTown]
    numerals: Numerals

    @cached_property
    def places_by_name(self) -> dict[str, PostTown]:
        """Places by every name they go by, lower case."""
        every = self.places.values()
        return {name.casefold(): each for each in every for name in (each.name, *each.also)}

    @cached_property
    def _rates(self) -> dict[tuple[str, bool], tuple[Rate, ...]]:
        made: dict[tuple[str, bool], tuple[Rate, ...]] = {}
        for rate in self.rates.values():
            key = rate.service, not rate.route
            made[key] = (*made.get(key, ()), rate)
        return made

    def rates_of(self, service: str, *, inland: bool) -> tuple[Rate, ...]:
        """The records of a service at home, or of one abroad, by ship or of the forces."""
        return self._rates.get((service, inland), ())

    @cached_property
    def words_of_ways(self) -> frozenset[str]:
        """Every word by which the way of a letter abroad is told: southampton, packet, ship."""
        ways = (way for rate in self.rates.values() for way in rate.via)
        return frozenset(word for way in ways for word in way.split())

    def place(self, name: str) -> PostTown | None:
        """The place of that name, capitals and spaces at the ends aside; None when not known."""
        return self.places_by_name.get(name.strip().casefold())

    def is_office(self, numeral: Numeral, name: str) -> bool:
        """Whether a place, under any of its names, is a numeral's office (or the country it lay in)."""
        place = self.place(name)
        wanted = {plain_name(each) for each in ((place.name, *place.also) if place else ())}
        wanted.add(plain_name(name))
        return any(plain_name(each) in wanted for each in numeral.names)


def read_postal(data: Path = DATA) -> Postal:
    """Read and check `data/postal`; raises DataFault naming file, record and field."""
    tables = read_folder("postal", data)

    def all_of(record: type[Record], key: str, *files: str) -> dict[str, Record]:
        return _gather(tables, record, key, files)

    postal = Postal(
        sources=read_sources(tables),
        rates=all_of(Rate, "rate", *(stem for stem in tables if stem.startswith("rates_"))),
        fees=all_of(Fee, "fee", "fees"),
        charge_rules=all_of(ChargeRule, "charge_rule", "charges"),
        cancels=all_of(Cancel, "cancel", "cancels_crosses", "cancels_numerals", "cancels_daters"),
        marks=all_of(Mark, "mark", "marks"),
        ink_changes=all_of(InkChange, "ink_change", "ink_changes"),
        checks=all_of(CoverCheck, "check", "checks", "checks_cancels", "checks_evidence"),
        transit=all_of(Transit, "transit", "transit"),
        key_dates=all_of(KeyDate, "key_date", "key_dates"),
        notes=all_of(Note, "note", "notes"),
        rate_rules=all_of(Note, "rule", "rules"),
        open_points=all_of(OpenPoint, "open_point", "rules"),
        book_rules=all_of(PostalRule, "postal_rule", "rules_from_books", "marks_from_books"),
        multiples=all_of(Term, "term", "terms_multiples"),
        cover_terms=all_of(Term, "term", "terms_covers"),
        margins=all_of(GradedTerm, "term", "terms_margins"),
        faults=all_of(GradedTerm, "term", "terms_faults"),
        places=all_of(PostTown, "place", "places_british", "places_abroad"),
        numerals=read_numerals(tables),
    )
    _check(postal)
    return postal


def _gather(
    tables: Tables, record: type[Record], key: str, files: tuple[str, ...]
) -> dict[str, Record]:
    made: dict[str, Record] = {}
    for file in files:
        rows = build_all(record, tables, file, key)
        if twice := made.keys() & rows.keys():
            raise DataFault(f"{file}.toml [[{key}]] {min(twice)}: the id appears in another file too")
        made |= rows
    if not made:
        raise DataFault(f"{files[0]}.toml has no [[{key}]]")
    return made


def _check(postal: Postal) -> None:
    for holder in (postal, postal.numerals):
        for subject in fields(holder):
            if subject.name in ("sources", "numerals"):
                continue
            for name, record in getattr(holder, subject.name).items():
                _check_record(record, f"postal {subject.name} {name}", postal.sources)
    for cancel in postal.cancels.values():
        for town in cancel.towns:
            if postal.place(town) is None:
                raise DataFault(f"postal cancels {cancel.id}.towns: there is no place {town!r}")
    for check in postal.checks.values():
        _check_answers(check)
    for place in postal.places.values():
        if place.penny_from:
            _check_place(place, postal.sources)
    _check_names(postal)
    _check_rates(postal)
    _check_shapes(postal)


def _check_names(postal: Postal) -> None:
    taken: dict[str, str] = {}
    for place in postal.places.values():
        for name in (place.name, *place.also):
            if other := taken.get(name.casefold()):
                raise DataFault(f"postal places {place.id}.also: {name!r} is {other} already")
            taken[name.casefold()] = place.id


def _check_rates(postal: Postal) -> None:
    """Places and the records that book rules stand about are there."""
    for rate in postal.rates.values():
        if missing := set(rate.places) - postal.places.keys():
            raise DataFault(f"postal rates {rate.id}.places: there is no place {min(missing)!r}")
    known = (
        postal.rates.keys() | postal.fees.keys() | postal.charge_rules.keys() | postal.cancels.keys()
    )
    for rule in postal.book_rules.values():
        if missing := set(rule.about) - known:
            raise DataFault(f"postal book rules {rule.id}.about: there is no record {min(missing)!r}")
        for written in (rule.first, rule.last):
            try:
                if written:
                    read_date(written)
            except InputError as bad:
                raise DataFault(f"postal book rules {rule.id}: {bad}") from None


def _check_shapes(postal: Postal) -> None:
    for shape in postal.numerals.shapes.values():
        if shape.cancel not in postal.cancels:
            raise DataFault(f"postal numerals {shape.id}.cancel: there is no cancel {shape.cancel!r}")


def _check_answers(check: CoverCheck) -> None:
    scale = ("none", "weak", "moderate", "strong")
    for answer in check.answers:
        limit = check.w_for if answer.speaks == "for" else check.w_against
        if scale.index(answer.strength) > scale.index(limit):
            where = f"postal checks {check.id}.answers {answer.value}"
            raise DataFault(f"{where}: {answer.strength} is more than {limit}")


def _check_place(place: PostTown, sources: dict[str, Source]) -> None:
    where = f"postal places {place.id}"
    check_source(place.penny_source, sources, where)
    try:
        read_date(place.penny_from)
    except InputError as bad:
        raise DataFault(f"{where}.penny_from: {bad}") from None


def _check_record(record: Any, where: str, sources: dict[str, Source]) -> None:
    for name in _SOURCE_FIELDS:
        if named := getattr(record, name, ""):
            check_source(named, sources, where)
    if isinstance(record, _PARTLY_DATED):
        return  # its days may be partial and are checked where they are read
    for name in _DAY_FIELDS:
        if written := getattr(record, name, ""):
            try:
                date.fromisoformat(written)
            except ValueError:
                raise DataFault(f"{where}.{name}: {written!r} is not a day") from None
    if getattr(record, "first", "") > getattr(record, "last", "9999"):
        raise DataFault(f"{where}: ends before it begins")
