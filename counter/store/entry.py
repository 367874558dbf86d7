"""One line of the journal: a checksum, a space, and the entry as JSON, ended by a newline.

The checksum (BLAKE2b, 64 bits, RFC 7693) covers the JSON bytes, so a line proves itself without its
neighbours: damage to one line never hides another.
"""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import blake2b
from types import MappingProxyType
from typing import Any, NamedTuple

from msgspec import DecodeError
from msgspec import json as plain_json

from counter.values.errors import UserError

Row = dict[str, Any]

_SUM = 16  # hexadecimal digits before the space
_NOBODY: Mapping[str, int] = MappingProxyType({})
_NOTHING: Mapping[str, Any] = MappingProxyType({})
_FIELDS = frozenset(
    ("id", "laptop", "seq", "at", "verb", "changes", "reverses", "knows", "held", "erases")
)
_encode = plain_json.Encoder().encode
_decode = plain_json.Decoder().decode


class Change(NamedTuple):
    """The whole new row of a table under a key; `row` None takes the row out."""

    table: str
    key: str
    row: Mapping[str, Any] | None


class Entry(NamedTuple):
    """What was noted: by which laptop, as its how-manieth, when by its clock, and the changes.

    `id` is unique everywhere. `knows` says how far it had seen each other laptop's entries. `held` are
    the places in `changes` that a merge kept back to settle. `erases` are [table, key, fields] removed
    for good on a person's request, see erase.py. `later` is what a newer program says besides: kept.
    """

    id: str
    laptop: str
    seq: int
    at: str
    verb: str
    changes: tuple[Change, ...]
    reverses: str | None = None
    knows: Mapping[str, int] = _NOBODY
    held: tuple[int, ...] = ()
    erases: tuple[tuple[str, str, tuple[str, ...]], ...] = ()
    later: Mapping[str, Any] = _NOTHING


def entry_to_data(entry: Entry) -> Row:
    """The entry as plain JSON values; what is empty is left out."""
    data: Row = {
        "id": entry.id,
        "laptop": entry.laptop,
        "seq": entry.seq,
        "at": entry.at,
        "verb": entry.verb,
        "changes": [[each.table, each.key, each.row] for each in entry.changes],
    }
    if entry.reverses:
        data["reverses"] = entry.reverses
    if entry.knows:
        data["knows"] = dict(entry.knows)
    if entry.held:
        data["held"] = list(entry.held)
    if entry.erases:
        data["erases"] = [[table, key, list(names)] for table, key, names in entry.erases]
    data.update(entry.later)
    return data


def entry_from_data(data: Mapping[str, Any]) -> Entry:
    """The entry of `entry_to_data`; raises KeyError, TypeError or ValueError on anything else."""
    name, laptop, seq, at = data["id"], data["laptop"], data["seq"], data["at"]
    verb, changes = data["verb"], data["changes"]
    texts = type(name) is type(laptop) is type(at) is type(verb) is str
    if not texts or type(seq) is not int or type(changes) is not list:
        raise ValueError("not an entry")
    return Entry(
        name,
        laptop,
        seq,
        at,
        verb,
        tuple([_change(*each) for each in changes]),
        data.get("reverses"),
        dict(data.get("knows", _NOBODY)),
        tuple(data.get("held", ())),
        tuple([(table, key, tuple(names)) for table, key, names in data.get("erases", ())]),
        _NOTHING if data.keys() <= _FIELDS else {k: v for k, v in data.items() if k not in _FIELDS},
    )


def _change(table: object, key: object, row: object) -> Change:
    if not type(table) is type(key) is str or not (row is None or type(row) is dict):
        raise ValueError("not a change")
    return Change(table, key, row)


def seal(data: Mapping[str, Any]) -> bytes:
    """The data as a checksummed line. Raises UserError when a value cannot be kept as JSON text."""
    try:
        body = _encode(data)
    except UnicodeEncodeError:
        raise UserError(
            "The text holds a broken character that cannot be kept; type it again."
        ) from None
    except (TypeError, ValueError, RecursionError) as fault:
        raise UserError(f"This cannot be kept in the journal ({fault}); nothing was noted.") from None
    return b"%b %b\n" % (checksum(body), body)


def checksum(body: bytes) -> bytes:
    """The checksum of a line's JSON bytes, as hexadecimal digits."""
    return blake2b(body, digest_size=_SUM // 2).hexdigest().encode()


def unseal(line: bytes) -> Row | None:
    """The data of a line (with or without its newline); None when the line is not sound."""
    body = line[_SUM + 1 :].removesuffix(b"\n")
    if line[_SUM : _SUM + 1] != b" " or checksum(body) != line[:_SUM]:
        return None
    try:
        data = _decode(body)
    except (DecodeError, ValueError, RecursionError):
        return None
    return data if isinstance(data, dict) else None


def is_of_newer_kind(data: Mapping[str, Any] | None) -> bool:
    """Whether a sound line is an entry of a kind that this program does not know; ours name none."""
    return data is not None and "kind" in data


def line_to_entry(line: bytes) -> Entry | None:
    """The entry of a journal line; None when the line is damaged."""
    data = unseal(line)
    if data is None or is_of_newer_kind(data):
        return None
    try:
        return entry_from_data(data)
    except (KeyError, TypeError, ValueError):
        return None


def as_written(entry: Entry, line: bytes) -> Entry:
    """The entry with its changes as they stand in the line that it was just sealed as."""
    changes = _decode(line[_SUM + 1 : -1])["changes"]
    return entry._replace(changes=tuple([Change(*each) for each in changes]))


def in_force(entry: Entry) -> tuple[Change, ...]:
    """The changes of an entry that no merge holds back."""
    return tuple(each for place, each in enumerate(entry.changes) if place not in entry.held)
