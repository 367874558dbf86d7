"""Completing a path that is being typed, from the names that are there."""

from __future__ import annotations

import os
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from counter.values.errors import InputError
from counter.values.paths import path_of

_MOST_LOOKED_AT = 20_000  # names in one folder


@dataclass(frozen=True, slots=True)
class Completed:
    """The path as far as it is certain, and the names it may go on with (folders end with /)."""

    path: str
    names: tuple[str, ...]


def complete(typed: str, *, folders_only: bool = False, suffix: str = "") -> Completed:
    """Complete the last name of a path; files may be limited to a suffix. Never raises."""
    typed = _whole(typed)
    head, begun = os.path.split(typed)
    try:
        folder = path_of(head or ".", "folder")
    except InputError:
        return Completed(typed, ())
    names = sorted(_names(folder, begun, folders_only, suffix), key=str.casefold)
    if not names:
        return Completed(typed, ())
    return Completed(os.path.join(head, names[0][: _alike(names[0], names[-1])]), tuple(names))


def read_path(typed: str, what: str) -> Path:
    """The path typed, ~ filled in. Raises InputError when there is none."""
    if not typed.strip():
        raise InputError(f"Type the path of the {what} first; Tab completes it.")
    return path_of(_whole(typed), what)


def _whole(typed: str) -> str:
    """A whole path put behind the ~/ that stood there is that path: ~//media/stick, /media/stick."""
    rest = typed.strip().removeprefix("~/")
    return rest if rest.startswith(("/", "~")) or rest[1:2] == ":" else typed


def _alike(first: str, last: str) -> int:
    """How many letters the first and the last name in order begin alike with: all between do too."""
    for place, (one, other) in enumerate(zip(first, last, strict=False)):
        if one.casefold() != other.casefold():
            return place
    return min(len(first), len(last))


def _names(folder: Path, begun: str, folders_only: bool, suffix: str) -> list[str]:
    try:
        with os.scandir(folder) as entries:
            return [
                f"{each.name}/" if each.is_dir() else each.name
                for each in islice(entries, _MOST_LOOKED_AT)
                if _fits(each.name, begun)
                and (each.is_dir() or not folders_only)
                and (each.is_dir() or each.name.casefold().endswith(suffix))
            ]
    except (OSError, ValueError):
        return []


def _fits(name: str, begun: str) -> bool:
    """Hidden names only when asked for; a name that cannot be shown cannot be chosen."""
    hidden = name.startswith(".") and not begun.startswith(".")
    return name.casefold().startswith(begun.casefold()) and not hidden and name.isprintable()
