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
from collections.abc import Callable, Mapping
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


class _Misfit(Exception):
    """A value does not fit; `path` is where inside the field it stands."""

    def __init__(self, text: str, path: str = "") -> None:
        super().__init__(text)
        self.path = path


Fit = Callable[[Any], Any]


@cache
def _shape(record: Any) -> tuple[dict[str, Fit], frozenset[str]]:
    """How each field of a record is fitted, and the fields it cannot do without."""
    needed = frozenset(
        field.name
        for field in fields(record)
        if field.default is MISSING and field.default_factory is MISSING
    )
    return {name: _fitter(wanted) for name, wanted in typing.get_type_hints(record).items()}, needed


def build(record: type[Record], row: Mapping[str, Any], where: str) -> Record:
    """Make a frozen record of a row; `where` names file and record for the fault message.

    Lists become tuples, nested tables become the nested record their type names, text becomes
    Decimal where the record wants one. Unknown, missing and wrongly typed fields raise DataFault.
    """
    try:
        return _built(record, row)
    except _Misfit as misfit:
        raise DataFault(f"{where}{misfit.path}: {misfit}") from None


def _built(record: type[Record], row: Mapping[str, Any]) -> Record:
    fits, needed = _shape(typing.cast(typing.Hashable, record))
    if not (row.keys() <= fits.keys() and needed <= row.keys()):
        unknown, missing = row.keys() - fits.keys(), needed - row.keys()
        fault, which = ("unknown field", unknown) if unknown else ("missing field", missing)
        raise _Misfit(f"{fault} {', '.join(sorted(which))}")
    made = {}
    for key, value in row.items():
        try:
            made[key] = fits[key](value)
        except _Misfit as misfit:
            raise _Misfit(str(misfit), f".{key}{misfit.path}") from None
    return record(**made)


def build_all(record: type[Record], tables: Tables, file: str, key: str) -> dict[str, Record]:
    """Every row of `[[key]]` in one file by its id; a repeated id raises DataFault."""
    made: dict[str, Record] = {}
    for number, row in enumerate(tables.get(file, {}).get(key, ()), 1):
        name = str(row.get("id", f"no. {number}"))
        if name in made:
            raise DataFault(f"{file}.toml [[{key}]] {name}: the id appears twice")
        made[name] = build(record, row, f"{file}.toml [[{key}]] {name}")
    return made


@cache
def _fitter(wanted: Any) -> Fit:
    """The function that fits a value to a type, made once a type."""
    if wanted is Any:
        return lambda value: value
    if wanted in (str, bool, int):
        return _exactly(wanted)
    if wanted is float:
        return _number(float, (int, float))
    if wanted is Decimal:
        return _number(Decimal, (int, str))
    origin, arguments = typing.get_origin(wanted), typing.get_args(wanted)
    if origin is tuple:
        return _rows(_fitter(arguments[0]), wanted)
    if origin is dict:
        return _table(_fitter(arguments[1]), wanted)
    if origin in (types.UnionType, typing.Union):
        return _either([_fitter(each) for each in arguments if each is not type(None)])
    if origin is typing.Literal:
        return _one_of(arguments, wanted)
    if hasattr(wanted, "__dataclass_fields__"):
        return _nested(wanted)
    return _refuse(wanted)


def _misfit(value: Any, wanted: Any) -> _Misfit:
    name = getattr(wanted, "__name__", None) if isinstance(wanted, type) else None
    return _Misfit(f"{value!r} is not {name}" if name else f"{value!r} does not fit {wanted}")


def _exactly(wanted: type) -> Fit:
    def fit(value: Any) -> Any:
        if type(value) is wanted:
            return value
        raise _misfit(value, wanted)

    return fit


def _number(wanted: type, given: tuple[type, ...]) -> Fit:
    def fit(value: Any) -> Any:
        if type(value) in given:
            return wanted(value)
        raise _misfit(value, wanted)

    return fit


def _rows(fit_one: Fit, wanted: Any) -> Fit:
    def fit(value: Any) -> Any:
        if type(value) is list:
            return tuple(map(fit_one, value))
        raise _Misfit(f"{value!r} does not fit {wanted}")

    return fit


def _table(fit_one: Fit, wanted: Any) -> Fit:
    def fit(value: Any) -> Any:
        if type(value) is not dict:
            raise _Misfit(f"{value!r} does not fit {wanted}")
        return {key: fit_one(each) for key, each in value.items()}

    return fit


def _nested(wanted: Any) -> Fit:
    def fit(value: Any) -> Any:
        if type(value) is dict:
            return _built(wanted, value)
        raise _Misfit(f"{value!r} does not fit {wanted}")

    return fit


def _one_of(choices: tuple[Any, ...], wanted: Any) -> Fit:
    def fit(value: Any) -> Any:
        if value in choices:
            return value
        raise _Misfit(f"{value!r} does not fit {wanted}")

    return fit


def _either(fits: list[Fit]) -> Fit:
    def fit(value: Any) -> Any:
        for each in fits:
            try:
                return each(value)
            except _Misfit:
                continue
        raise _Misfit(f"{value!r} fits none of the allowed shapes")

    return fit


def _refuse(wanted: Any) -> Fit:
    def fit(value: Any) -> Any:
        raise _Misfit(f"{value!r} does not fit {wanted}")

    return fit
