"""Paths of files and folders as they are typed."""

from __future__ import annotations

from pathlib import Path

from counter.values.trouble import BadWords


def path_of(typed: str, what: str = "file") -> Path:
    """The path typed, ~ filled in. Raises BadWords when it is empty or cannot be one."""
    if not typed.strip():
        raise BadWords(f"Type the path of the {what} first.")
    if "\0" in typed:
        raise BadWords(f"A path of a {what} cannot hold the sign NUL; type it again without it.")
    try:
        return Path(typed.strip()).expanduser()
    except RuntimeError:
        raise BadWords(f"{typed} begins with a person this computer does not know.") from None
