"""Read data files into frozen records: parsed once, kept compiled, checked field by field.

Parsing the TOML takes longer than the whole first screen, so each folder of data keeps a compiled
form beside it (or in the user's cache when the program folder cannot be written). Its name carries
a digest of every byte it was made from, so a changed data file can never meet a stale form.
"""

from __future__ import annotations

import hashlib
import marshal
import os
import sys
import tomllib
import types
import typing
from collections.abc import Mapping
from dataclasses import MISSING, fields
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from counter.values.errors import UserError

DATA = Path(__file__).parent / "data"
Tables = dict[str, dict[str, Any]]
Record = TypeVar("Record")


class DataFault(UserError):
    """A data file is wrong; the message names the file, the record and the field."""


def read_folder(subject: str, data: Path = DATA) -> Tables:
    """Every TOML file of `data/<subject>/` as {file stem: tables}; raises DataFault."""
    raw = {path.stem: path.read_bytes() for path in sorted((data / subject).glob("*.toml"))}
    if not raw:
        raise DataFault(f"The reference folder {data / subject} is missing or empty.")
    digest = hashlib.blake2b(digest_size=12)
    for stem, content in raw.items():
        digest.update(stem.encode() + b"\0" + content + b"\0")
    name = f"{subject}-{digest.hexdigest()}-{sys.implementation.cache_tag}.bin"
    for folder in _compiled_folders(data):
        try:
            return typing.cast(Tables, marshal.loads((folder / name).read_bytes()))
        except (OSError, ValueError, EOFError, TypeError):
            continue
    tables = {stem: _parse(subject, stem, content) for stem, content in raw.items()}
    _keep(subject, name, tables, data)
    return tables


def _parse(subject: str, stem: str, content: bytes) -> dict[str, Any]:
    try:
        return tomllib.loads(content.decode("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        raise DataFault(f"{subject}/{stem}.toml is not readable: {fault}") from fault


def _compiled_folders(data: Path) -> tuple[Path, ...]:
    cache = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    home = Path(cache) if cache else Path.home() / ".cache"
    return (data / "__pycache__", home / "counter")


def _keep(subject: str, name: str, tables: Tables, data: Path) -> None:
    """Write the compiled form beside, then rename over; older forms of the subject go."""
    content = marshal.dumps(tables)
    for folder in _compiled_folders(data):
        try:
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            beside = folder / f"{name}.{os.getpid()}"
            beside.write_bytes(content)
            beside.replace(folder / name)
            for old in folder.glob(f"{subject}-*.bin"):
                if old.name != name:
                    old.unlink(missing_ok=True)
            return
        except OSError:
            continue  # a read-only program folder only costs time


@cache
def _shape(record: Any) -> tuple[dict[str, Any], frozenset[str]]:
    needed = frozenset(
        field.name
        for field in fields(record)
        if field.default is MISSING and field.default_factory is MISSING
    )
    return typing.get_type_hints(record), needed


def build(record: type[Record], row: Mapping[str, Any], where: str) -> Record:
    """Make a frozen record of a row; `where` names file and record for the fault message.

    Lists become tuples, nested tables become the nested record their type names, text becomes
    Decimal where the record wants one. Unknown, missing and wrongly typed fields raise DataFault.
    """
    hints, needed = _shape(typing.cast(typing.Hashable, record))
    unknown = row.keys() - hints.keys()
    missing = needed - row.keys()
    if unknown or missing:
        fault, which = ("unknown field", unknown) if unknown else ("missing field", missing)
        raise DataFault(f"{where}: {fault} {', '.join(sorted(which))}")
    return record(**{key: _fit(value, hints[key], f"{where}.{key}") for key, value in row.items()})


def build_all(record: type[Record], tables: Tables, file: str, key: str) -> dict[str, Record]:
    """Every row of `[[key]]` in one file by its id; a repeated id raises DataFault."""
    made: dict[str, Record] = {}
    for number, row in enumerate(tables.get(file, {}).get(key, ()), 1):
        name = str(row.get("id", f"no. {number}"))
        if name in made:
            raise DataFault(f"{file}.toml [[{key}]] {name}: the id appears twice")
        made[name] = build(record, row, f"{file}.toml [[{key}]] {name}")
    return made


def _fit(value: Any, wanted: Any, where: str) -> Any:
    if wanted is Any:
        return value
    if wanted in (str, bool) or wanted is int:
        if type(value) is wanted:
            return value
    elif wanted is float:
        if type(value) in (int, float):
            return float(value)
    elif wanted is Decimal:
        if type(value) in (int, str):
            return Decimal(value)
    else:
        return _fit_compound(value, wanted, where)
    raise DataFault(f"{where}: {value!r} is not {getattr(wanted, '__name__', wanted)}")


def _fit_compound(value: Any, wanted: Any, where: str) -> Any:
    origin, arguments = typing.get_origin(wanted), typing.get_args(wanted)
    if origin is tuple and isinstance(value, list):
        return tuple(_fit(each, arguments[0], where) for each in value)
    if origin is dict and isinstance(value, dict):
        return {key: _fit(each, arguments[1], f"{where}.{key}") for key, each in value.items()}
    if origin in (types.UnionType, typing.Union):
        return _fit_either(value, arguments, where)
    if origin is typing.Literal and value in arguments:
        return value
    if isinstance(value, dict) and hasattr(wanted, "__dataclass_fields__"):
        return build(wanted, value, where)
    raise DataFault(f"{where}: {value!r} does not fit {wanted}")


def _fit_either(value: Any, arguments: tuple[Any, ...], where: str) -> Any:
    for each in arguments:
        if each is type(None):
            continue
        try:
            return _fit(value, each, where)
        except DataFault:
            continue
    raise DataFault(f"{where}: {value!r} fits none of the allowed shapes")
