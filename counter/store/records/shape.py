"""A record class and its rows: the rule of a field stands beside the field, and nowhere else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field, fields
from typing import Any, Generic, TypeVar

from counter.store.records import rules
from counter.store.records.rules import Rule
from counter.values.errors import UserError

R = TypeVar("R")


def ruled(rule: Rule, default: Any = MISSING) -> Any:
    """A dataclass field with its rule."""
    return field(default=default, metadata={"rule": rule})


def many(kind: type[Any]) -> Any:
    """A dataclass field that is a tuple of records of another class; none to begin with."""
    inner = Shape(kind, "")
    rule = rules.each(rules.group(inner.rules, inner.needed))
    return field(default=(), metadata={"rule": rule, "inner": inner, "many": True})


def maybe(kind: type[Any]) -> dict[str, Any]:
    """The metadata of a dataclass field that is a record of another class, or None."""
    inner = Shape(kind, "")
    rule = rules.or_none(rules.group(inner.rules, inner.needed))
    return {"rule": rule, "inner": inner, "many": False}


@dataclass(frozen=True)
class Shape(Generic[R]):
    """How records of a class become rows and back; `what` is the trade's word for one of them."""

    kind: type[R]
    what: str

    def __post_init__(self) -> None:
        every: Any = fields(self.kind)  # type: ignore[arg-type]
        put = object.__setattr__
        put(self, "rules", {each.name: each.metadata["rule"] for each in every})
        put(self, "needed", [each.name for each in every if each.default is MISSING])
        put(self, "defaults", {each.name: each.default for each in every})
        put(self, "inner", {each.name: each.metadata for each in every if "inner" in each.metadata})

    rules: dict[str, Rule] = field(init=False, repr=False)
    needed: list[str] = field(init=False, repr=False)
    defaults: dict[str, Any] = field(init=False, repr=False)
    inner: dict[str, Mapping[str, Any]] = field(init=False, repr=False)

    def check(self, row: Mapping[str, Any]) -> str:
        """The first thing wrong with a row, in words; "" when it is right."""
        return rules.first_wrong(self.rules, self.needed, row)

    def read(self, row: Mapping[str, Any]) -> R:
        """The record of a row. Raises UserError naming the field that is wrong."""
        wrong = self.check(row)
        if wrong:
            raise UserError(f"This {self.what} cannot be read: {wrong}.")
        return self.build(row)

    def build(self, row: Mapping[str, Any]) -> R:
        """The record of a row that is known to be right."""
        values = {
            name: tuple(value) if isinstance(value, list) else value for name, value in row.items()
        }
        for name, metadata in self.inner.items():
            value = row.get(name)
            if value is not None:
                inner: Shape[Any] = metadata["inner"]
                values[name] = (
                    tuple(inner.build(each) for each in value)
                    if metadata["many"]
                    else inner.build(value)
                )
        return self.kind(**values)

    def write(self, record: R) -> dict[str, Any]:
        """The row of a record; fields left at their default are left out."""
        row: dict[str, Any] = {}
        for name, default in self.defaults.items():
            value = getattr(record, name)
            if value == default and type(value) is type(default):
                continue
            row[name] = self._plain(name, value)
        return row

    def _plain(self, name: str, value: Any) -> Any:
        metadata = self.inner.get(name)
        if metadata is None or value is None:
            return list(value) if isinstance(value, tuple) else value
        inner: Shape[Any] = metadata["inner"]
        return [inner.write(each) for each in value] if metadata["many"] else inner.write(value)
