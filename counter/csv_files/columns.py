"""The columns of a stock list: what each is called, how its cell reads and how it is written."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from counter.csv_files.cells import join, split
from counter.store.entry import Row
from counter.values.date_words import day_of_words
from counter.values.errors import InputError
from counter.values.money import plain, read_pence

Cell = Callable[[str], Any]


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, other headings it is known by, its place in the row, and both ways."""

    heading: str
    also: tuple[str, ...]
    place: tuple[str, ...]
    read: Cell
    write: Callable[[Any], str]

    def put(self, row: Row, text: str) -> None:
        """Put a cell into the row; an empty one is not noted. Raises InputError."""
        if not text.strip():
            return
        inner = row
        for name in self.place[:-1]:
            inner = inner.setdefault(name, {})
        inner[self.place[-1]] = self.read(text)

    def get(self, row: Mapping[str, Any]) -> str:
        """The row's cell, as text; empty when not noted."""
        value: Any = row
        for name in self.place:
            value = value.get(name) if isinstance(value, Mapping) else None
        return "" if value in (None, "", []) else self.write(value)


def _text(heading: str, *also: str, at: tuple[str, ...] = ()) -> Column:
    return Column(heading, also, at or (heading.replace(" ", "_"),), str, str)


def _list(heading: str, *also: str) -> Column:
    return Column(heading, also, (heading.replace(" ", "_"),), split, join)


def _faults_in(text: str) -> list[Row]:
    """ "thin: at top; crease" as terms and places."""
    faults = []
    for each in split(text):
        term, _, where = each.partition(": ")
        faults.append(
            {"term": term.strip(), "where": where.strip()} if where else {"term": each.strip()}
        )
    return faults


def _faults_out(faults: list[Row]) -> str:
    return join(
        f"{each['term']}: {each['where']}" if each.get("where") else each["term"] for each in faults
    )


def _json_in(text: str) -> Any:
    try:
        return json.loads(text)
    except ValueError:
        raise InputError("must be as this program's own export writes it") from None


def _json_out(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def _letters_in(text: str) -> list[str]:
    """ "KC KD", "KC; KD" or "KC-KD"."""
    return [each.upper() for each in re.split(r"[\s;,/-]+", text.strip()) if each]


def _money(heading: str, *also: str, name: str) -> Column:
    return Column(heading, also, (name,), lambda text: read_pence(text, f"the {heading}"), plain)


def _day_in(text: str) -> str:
    """A day as people write it (14/03/2026 is 14 March), as ISO text."""
    return day_of_words(text)


STOCK: tuple[Column, ...] = (
    _text("stock number", "number", "stock no", "no", "sku", "item", at=("number",)),
    _text("issue", "issue id"),
    _text("denomination", "value", "face value", "face"),
    _text("colour", "color"),
    _text("plate", "plate number", "pl"),
    Column("letters", ("check letters", "lettering"), ("letters",), _letters_in, join),
    _text("multiple"),
    _text("watermark", "wmk"),
    _text("alphabet"),
    _text("die"),
    _text("words", "description", "title", "details"),
    _list("margins"),
    _text("gum"),
    _text("cancel", "postmark", "cancellation"),
    _text("cancel colour", "cancel color"),
    _text("cancel number"),
    Column("faults", ("fault",), ("faults",), _faults_in, _faults_out),
    _text("attachment", "on"),
    *(
        _text(f"cover {name}", at=("cover", name))
        for name in ("date", "town", "to", "tied", "marks", "finding")
    ),
    Column("treatments", (), ("treatments",), _json_in, _json_out),
    _text("certificate", "certificate body", "cert", at=("certificate", "body")),
    *(_text(f"certificate {name}", at=("certificate", name)) for name in ("date", "number", "opinion")),
    _text("kept", "where kept", "location", "album", "box"),
    _money("asking price", "asking", "price", "retail", name="asking"),
    _money("cost", "cost price", "paid", "bought for", name="cost"),
    _text("status"),
    _text("purchase", "purchase number"),
    _text("scheme", "vat scheme"),
    _list("photographs", "photos", "images", "picture"),
    _text("reference", "my reference", "ref"),
    _text("remarks", "notes", "comment", "comments"),
    Column(
        "noted",
        ("date noted", "date in stock", "acquired", "bought", "date bought"),
        ("noted",),
        _day_in,
        str,
    ),
)

#: Columns that a line can do without: an odd cell in one ("POA") is kept as a remark.
SPARED = ("asking price", "cost", "noted")

BY_HEADING = {column.heading: column for column in STOCK}


def guess(heading: str) -> Column | None:
    """The column a heading of another program most likely means; None when none is near."""
    plain_heading = " ".join(re.sub(r"[^a-z0-9]+", " ", heading.casefold()).split())
    for column in STOCK:
        if plain_heading == column.heading or plain_heading in column.also:
            return column
    return None
