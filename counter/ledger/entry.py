"""One line of the journal: a checksum, a space, and the entry as JSON, ended by a newline.

The checksum (BLAKE2b, 64 bits, RFC 7693) covers the JSON bytes, so a line proves itself without its
neighbours: damage to one line never hides another.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import blake2b
from typing import Any

from counter.values.trouble import Trouble

Row = dict[str, Any]

_encode = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode
_decode = json.JSONDecoder().decode
_SUM = 16  # hexadecimal digits before the space


@dataclass(frozen=True, slots=True)
class Change:
    """The whole new row of a table under a key; `row` None takes the row out."""

    table: str
    key: str
    row: Mapping[str, Any] | None


@dataclass(frozen=True, slots=True)
class Entry:
    """What was noted: by which laptop, as its how-manieth, when by its clock, and the changes.

    `id` is unique everywhere. `knows` says how far it had seen each other laptop's entries. `held` are
    the places in `changes` that a merge kept back to settle. `erases` are [table, key, fields] removed
    for good on a person's request, see erase.py.
    """

    id: str
    laptop: str
    seq: int
    at: str
    verb: str
    changes: tuple[Change, ...]
    reverses: str | None = None
    knows: Mapping[str, int] = field(default_factory=dict)
    held: tuple[int, ...] = ()
    erases: tuple[tuple[str, str, tuple[str, ...]], ...] = ()


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
    return data


def entry_from_data(data: Mapping[str, Any]) -> Entry:
    """The entry of `entry_to_data`; raises KeyError, TypeError or ValueError on anything else."""
    seq, changes = data["seq"], data["changes"]
    if type(seq) is not int or not isinstance(changes, list):
        raise ValueError("not an entry")
    return Entry(
        id=_text(data["id"]),
        laptop=_text(data["laptop"]),
        seq=seq,
        at=_text(data["at"]),
        verb=_text(data["verb"]),
        changes=tuple(_change(*each) for each in changes),
        reverses=data.get("reverses"),
        knows=dict(data.get("knows", {})),
        held=tuple(data.get("held", ())),
        erases=tuple((table, key, tuple(names)) for table, key, names in data.get("erases", ())),
    )


def _text(value: object) -> str:
    if type(value) is not str:
        raise ValueError("not text")
    return value


def _change(table: object, key: object, row: object) -> Change:
    if row is not None and type(row) is not dict:
        raise ValueError("not a row")
    return Change(_text(table), _text(key), row)


def seal(data: Mapping[str, Any]) -> bytes:
    """The data as a checksummed line. Raises Trouble when a value cannot be kept as JSON text."""
    try:
        body = _encode(data).encode()
    except UnicodeEncodeError:
        raise Trouble("The text holds a broken character that cannot be kept; type it again.") from None
    except (TypeError, ValueError, RecursionError) as fault:
        raise Trouble(f"This cannot be kept in the journal ({fault}); nothing was noted.") from None
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
        data = _decode(body.decode())
    except (ValueError, RecursionError):
        return None
    return data if isinstance(data, dict) else None


def line_to_entry(line: bytes) -> Entry | None:
    """The entry of a journal line; None when the line is damaged."""
    data = unseal(line)
    if data is None:
        return None
    try:
        return entry_from_data(data)
    except (KeyError, TypeError, ValueError):
        return None


def in_force(entry: Entry) -> tuple[Change, ...]:
    """The changes of an entry that no merge holds back."""
    return tuple(each for place, each in enumerate(entry.changes) if place not in entry.held)
