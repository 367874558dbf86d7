"""Records: fields, limits and defaults declared once, read from a row of plain values and written back.

A field's type says what it may hold: `Annotated[int, Meta(ge=0), Says(pence)]`. The limits are checked by
msgspec; `Says` has the plain words for a refusal and, with `looks`, a look that a type cannot say (is
there such a day?). A field that this program does not know (a newer one wrote it) is kept in `later` and
written back with the row.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import (
    Annotated,
    Any,
    ClassVar,
    Literal,
    TypeVar,
    Union,
    get_args,
    get_origin,
    get_type_hints,
)

from msgspec import NODEFAULT, Meta, Struct, ValidationError, convert, field
from msgspec.structs import fields, replace

from counter.values import field_rules as rules
from counter.values.field_rules import LONG, MOST_COUNT, MOST_PENCE, Rule

Row = dict[str, Any]


@dataclass(frozen=True)
class Says:
    """The plain words for a wrong value of a type; with `looks` the rule is also asked of each value."""

    rule: Rule
    looks: bool = False


def one_of(*choices: str) -> Says:
    """One of a few words."""
    return Says(rules.among(choices), looks=True)


Words = Annotated[str, Meta(max_length=LONG), Says(rules.words)]
Name = Annotated[str, Says(rules.name, looks=True)]
OptionalName = Annotated[str, Says(rules.optional_name, looks=True)]
Pence = Annotated[int, Meta(ge=0, le=MOST_PENCE), Says(rules.pence)]
SignedPence = Annotated[int, Meta(ge=-MOST_PENCE, le=MOST_PENCE), Says(rules.signed_pence)]
Count = Annotated[int, Meta(ge=0, le=MOST_COUNT), Says(rules.count)]
ExactNumber = Annotated[str, Says(rules.number_rule_words, looks=True)]
Day = Annotated[str, Says(rules.day, looks=True)]
OptionalDay = Annotated[str, Says(rules.optional_day, looks=True)]
Moment = Annotated[str, Says(rules.moment_rule, looks=True)]


class Record(Struct, frozen=True, kw_only=True):
    """The least a record is. `later` are fields of a newer program, as (name, value)."""

    #: Whether a row of it has every field; otherwise those left at their default are left out.
    IN_FULL: ClassVar[bool] = False

    later: tuple[Any, ...] = field(default=(), name=" ")  # no row has a field of that name

    def why_not_whole(self) -> str:
        """What does not hold together between its fields, in words; "" when it does."""
        return ""


R = TypeVar("R", bound=Record)


def read_record(kind: type[R], row: Mapping[str, Any]) -> R:
    """The record of a row; what it holds that is no field is kept in `later`.

    A value out of its limits (an old or a newer program's) is taken as it stands: `why_wrong` tells.
    """
    try:
        record = convert(row, kind)
    except ValidationError:
        record = _as_it_stands(kind, row)
    return _with_later(record, row) if _has_strange(kind, row) else record


def _as_it_stands(kind: type[R], row: Mapping[str, Any]) -> R:
    values: dict[str, Any] = {
        name: row.get(name, "") if default is NODEFAULT else row.get(name, default)
        for name, default in _defaults(kind)
    }
    for name, inner in _inner(kind):
        if isinstance(values[name], list | tuple):
            values[name] = tuple(_as_it_stands(inner, each) for each in values[name])
        elif isinstance(values[name], Mapping):
            values[name] = _as_it_stands(inner, values[name])
    return kind(
        **{name: tuple(each) if isinstance(each, list) else each for name, each in values.items()}
    )


def write_row(record: Record) -> Row:
    """The row of a record, in the order of its fields, with those of a newer program at the end."""
    row: Row = {}
    full = record.IN_FULL
    for name, default in _defaults(type(record)):
        value = getattr(record, name)
        if full or value != default or type(value) is not type(default):
            row[name] = _plain(value)
    return row | dict(record.later) if record.later else row


def values_of(record: Record) -> Row:
    """Every field of this program's with its value, as it is in the record."""
    return {name: getattr(record, name) for name, _ in _defaults(type(record))}


def why_wrong(kind: type[Record], row: Mapping[str, Any]) -> str:
    """The first field of a row that is missing or wrong, in words; "" when all is right."""
    for name, default in _defaults(kind):
        if default is NODEFAULT and name not in row:
            return f"{name} is missing"
    try:
        record = convert(row, kind)
    except ValidationError as fault:
        return _in_words(kind, row, str(fault))
    except UnicodeError:
        return "it holds a broken character"
    wrong = next(_looked_at(record), "") or next(_strange_wrong(kind, row), "")
    return wrong or record.why_not_whole()


@cache
def _defaults(kind: type[Record]) -> tuple[tuple[str, Any], ...]:
    return tuple((each.name, each.default) for each in fields(kind) if each.name != "later")


@cache
def _names(kind: type[Record]) -> frozenset[str]:
    return frozenset(name for name, _ in _defaults(kind))


@cache
def _types(kind: type[Record]) -> dict[str, Any]:
    """The type of each field as it was declared."""
    return get_type_hints(kind, include_extras=True)


@cache
def _inner(kind: type[Record]) -> tuple[tuple[str, type[Record]], ...]:
    """The fields that are records, or several records, and their kind."""
    found = ((name, _record_in(of)) for name, of in _types(kind).items())
    return tuple((name, inner) for name, inner in found if inner is not None)


def _record_in(of: Any) -> type[Record] | None:
    if isinstance(of, type) and issubclass(of, Record):
        return of
    return next(filter(None, map(_record_in, get_args(of))), None)


@cache
def _looks(kind: type[Record]) -> tuple[tuple[str, Rule, bool], ...]:
    """The fields that are looked at one by one: name, rule, whether it is for each of several values."""
    found = []
    for name, of in _types(kind).items():
        said, several = _said(of), get_origin(of) is tuple
        if several:
            said = _said(get_args(of)[0])
        if said and said.looks:
            found.append((name, said.rule, several))
    return tuple(found)


def _looked_at(record: Record) -> Iterator[str]:
    """What is wrong that no type says, field by field."""
    for name, rule, several in _looks(type(record)):
        value = getattr(record, name)
        if several:
            yield from (
                f"{name} {_nth(n)} {wrong}" for n, each in enumerate(value) if (wrong := rule(each))
            )
        elif value is not None and (wrong := rule(value)):
            yield f"{name} {wrong}"
    for name, _ in _inner(type(record)):
        value = getattr(record, name)
        if isinstance(value, tuple):
            yield from (
                f"{name} {_nth(n)} {each}" for n, of in enumerate(value) for each in _looked_at(of)
            )
        elif value is not None:
            yield from (f"{name} {each}" for each in _looked_at(value))


def _nth(place: int) -> str:
    return f"(number {place + 1})"


def _inner_rows(kind: type[Record], row: Mapping[str, Any]) -> Iterator[tuple[type[Record], Any]]:
    for name, inner in _inner(kind):
        value = row.get(name)
        if value:
            yield from (
                (inner, each) for each in (value if isinstance(value, list | tuple) else (value,))
            )


def _has_strange(kind: type[Record], row: Mapping[str, Any]) -> bool:
    """Whether the row, or a row within it, has a field that is not one of this program's."""
    if not row.keys() <= _names(kind):
        return True
    return any(_has_strange(inner, each) for inner, each in _inner_rows(kind, row))


def _with_later(record: R, row: Mapping[str, Any]) -> R:
    changes: dict[str, Any] = {
        "later": tuple((name, value) for name, value in row.items() if name not in _names(type(record)))
    }
    for name, _ in _inner(type(record)):
        value, had = getattr(record, name), row.get(name)
        if isinstance(value, tuple) and had:
            changes[name] = tuple(_with_later(*each) for each in zip(value, had, strict=True))
        elif value is not None and had:
            changes[name] = _with_later(value, had)
    return replace(record, **changes)


def _strange_wrong(kind: type[Record], row: Mapping[str, Any]) -> Iterator[str]:
    """What of the fields of a newer program a journal could not hold."""
    for name in row.keys() - _names(kind):
        if not rules.plain_rule(row[name]):
            yield f"{name} holds what a journal cannot"
    for inner, each in _inner_rows(kind, row):
        yield from _strange_wrong(inner, each)


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    return write_row(value) if isinstance(value, Record) else value


# ---- the words for a refusal ----

_AT = re.compile(r"(?: - at `\$(?P<path>.*)`)?$")
_STEP = re.compile(r"\.(\w+)|\[(\d+)\]")
_MISSING = re.compile(r"missing required field `(\w+)`")


def _in_words(kind: type[Record], row: Mapping[str, Any], fault: str) -> str:
    """msgspec's refusal in plain words: the way to the field, and what its type says of the value."""
    at = _AT.search(fault)
    of: Any = kind
    value: Any = row
    way = []
    for name, place in _STEP.findall(at["path"] or "" if at else ""):
        of = _bare(of)
        of = _types(of)[name] if name else get_args(of)[0]
        value = value[name] if name else value[int(place)]
        way.append(name or _nth(int(place)))
    if missing := _MISSING.search(fault):
        return " ".join([*way, f"{missing[1]} is missing"])
    return " ".join([*way, _wrong(of, value)])


def _bare(of: Any) -> Any:
    """A type without what is said of it and without its None."""
    if get_origin(of) is Annotated:
        return _bare(get_args(of)[0])
    if get_origin(of) in (Union, UnionType):
        return _bare(next(each for each in get_args(of) if each is not type(None)))
    return of


def _said(of: Any) -> Says | None:
    if get_origin(of) is Annotated:
        return next((each for each in of.__metadata__ if isinstance(each, Says)), None)
    if get_origin(of) in (Union, UnionType):
        return next(filter(None, map(_said, get_args(of))), None)
    return None


def _wrong(of: Any, value: Any) -> str:
    said, bare = _said(of), _bare(of)
    if said and (wrong := said.rule(value)):
        return wrong
    if get_origin(bare) is Literal:
        return rules.among(get_args(bare))(value)
    if get_origin(bare) is tuple:
        return "must be a list"
    if bare is bool:
        return "must be true or false"
    return "must be text" if bare is str else "must be a set of fields"
