"""Typed words into a stock item: what was seen goes into its fields, what was not read stays as words.

The issue is filled in only when one stands out; a wrong identification costs money, a blank can be
filled at home.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import get_args

from msgspec.structs import replace

from counter.desk.stock.item_field_parsers import read_fault
from counter.judge.identify import Identification, identify
from counter.judge.observation import Observation, Reading
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.values.errors import InputError
from counter.values.item import Attachment, CoverFacts, Fault, Item

#: One issue stands out when nothing else seen speaks for another, from this share on.
SURE = 0.5

_TEXTS = ("denomination", "colour", "plate", "watermark", "alphabet", "die", "gum", "cancel")
_MORE_TEXTS = ("cancel_colour", "cancel_number", "multiple")
_ON = {"stationery": "entire", "": ""}
_MEANT = {*_TEXTS, *_MORE_TEXTS, "letters", "margins", "fault", "attachment"}
#: What begins so, or names two values loose, is several stamps: the fields of one would be untrue.
_LOT = re.compile(
    r"(?:an? |mixed |small |large )*(?:lot|collection|accumulation|bundle) of\b", re.IGNORECASE
)
_BACKED = ("cover", "entire", "front", "piece")
_MANY = ("letters", "margins", "fault", "mark")
_OF_COVERS = ("date", "town", "destination", "tied", "mark")


@dataclass(frozen=True, slots=True)
class ReadPiece:
    """A piece as typed, as read, and as it would be kept; `sure` when the issue was filled in."""

    words: str
    reading: Reading
    identification: Identification
    item: Item
    sure: bool


def read_piece(words: str, library: Library) -> ReadPiece:
    """Read one piece's words into an item without a number."""
    reading = read_line(words, library.vocabulary)
    found = identify(reading, library.stamps)
    if _several(words, reading):
        return ReadPiece(words, reading, found, Item("", words=words.strip()), False)
    best = found.candidates[0] if found.candidates else None
    issued = best is not None and best.issue_id in library.stamps.issues  # no reprint, no forgery
    sure = issued and best is not None and best.share >= SURE and found.together == (best.issue_id,)
    item = _item(words, reading, sure, library)
    if best is not None and sure:
        item = replace(
            item,
            issue=best.issue_id,
            denomination=item.denomination or best.denomination,
            colour=item.colour or best.colour,
        )
    return ReadPiece(words, reading, found, item, sure)


def _several(words: str, reading: Reading) -> bool:
    loose = reading.first("attachment") not in _BACKED
    return bool(_LOT.match(words.strip())) or (loose and bool(reading.differing("denomination")))


def _item(words: str, reading: Reading, sure: bool, library: Library) -> Item:
    texts = {name: reading.first(name) for name in (*_TEXTS, *_MORE_TEXTS) if reading.first(name)}
    seen = reading.first("attachment")
    on: Attachment = _ON.get(seen, seen)  # type: ignore[assignment]
    if on not in get_args(Attachment):
        on = ""
    item = Item("", attachment=on)
    item = replace(
        item,
        **{name: value for name, value in texts.items() if "|" not in value},
        letters=_letters(reading),
        margins=_margins(reading),
        faults=tuple(_fault(each, library) for each in reading.all("fault")),
    )
    item = replace(item, cover=_cover(item, reading))
    return replace(item, words=_left_over(words, reading, item, sure))


def _letters(reading: Reading) -> tuple[str, ...]:
    """One lettering a stamp; named again it speaks of the same stamp."""
    return tuple(dict.fromkeys(each.value for each in reading.all("letters")))


def _margins(reading: Reading) -> tuple[str, ...]:
    """The margins, one a stamp in the order of the letters where they were said of single stamps."""
    said = reading.all("margins")
    general = next((each.value for each in said if not each.stamp), "")
    own = {each.stamp: each.value for each in said if each.stamp}
    of_each = tuple(own.get(each, general) for each in _letters(reading))
    return of_each if own and all(of_each) else tuple(each.value for each in said)


def _fault(seen: Observation, library: Library) -> Fault:
    """The fault with where it is, and of a multiple in which stamp; the term alone when its words cannot
    be taken apart."""
    try:
        fault = read_fault(seen.words, library)
    except InputError:
        fault = Fault(seen.value)
    return replace(fault, where=f"{fault.where} in {seen.stamp}".strip()) if seen.stamp else fault


def _cover(item: Item, reading: Reading) -> CoverFacts | None:
    if item.attachment not in _BACKED:
        return None
    cover = CoverFacts(
        date=reading.first("date"),
        town=reading.first("town"),
        to=reading.first("destination"),
        tied=reading.first("tied"),
        marks=", ".join(each.value for each in reading.all("mark")),
    )
    return cover if cover != CoverFacts() else None


def _left_over(words: str, reading: Reading, item: Item, sure: bool) -> str:
    """What no field holds, in the words that were typed, so that nothing is lost.

    A year that helped to identify the issue is said by the issue.
    """
    kept = [(each.start, each.end) for each in reading.unread]
    held = _MEANT | (set(_OF_COVERS) if item.cover else {"date"} if sure else set())
    firsts = set[str]()
    for seen in reading.observations:
        again = seen.kind in firsts and seen.kind not in _MANY
        firsts.add(seen.kind)
        if seen.kind not in held or "|" in seen.value or again:
            kept.append((seen.start, seen.end))
    return " ".join(words[start:end].strip() for start, end in sorted(kept) if words[start:end].strip())
