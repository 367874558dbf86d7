"""What is no adhesive postage stamp and may lie among them: stationery, fiscals, labels."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class OtherKind:
    """A kind that looks like a postage stamp. `postage` is true where it is one after all (an
    inscription, a fiscal use). `first`, `last` and `postal_from` are ISO, whole or part; `postal_from`
    is the day from which it was good for postage."""

    id: str
    kind: str
    name: str
    postage: bool
    told_by: tuple[str, ...]
    postal_use: str
    source: str
    confidence: str
    first: str = ""
    last: str = ""
    postal_from: str = ""
    also: tuple[str, ...] = ()
    note: str = ""
    fields_from_memory: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stationery:
    """Postal stationery: the stamp is printed on the paper. `values` are the denominations as an
    observation writes them; days are ISO, whole or part."""

    id: str
    name: str
    form: str
    value: str
    printed: str
    source: str
    confidence: str
    values: tuple[str, ...] = ()
    colours: tuple[str, ...] = ()
    on_sale: str = ""
    valid_from: str = ""
    superseded: str = ""
    paper: str = ""
    tell: tuple[str, ...] = ()
    carried: str = ""
    also: tuple[str, ...] = ()
    note: str = ""
    fields_from_memory: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule that goes with stamps of the twentieth century; `not_before` and `not_after` are ISO."""

    id: str
    subject: str
    fact: str
    source: str
    confidence: str
    not_before: str = ""
    not_after: str = ""
    also: tuple[str, ...] = ()
    note: str = ""
