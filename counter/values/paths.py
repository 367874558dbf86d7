"""Paths of files and folders as they are typed."""

from __future__ import annotations

import os
from pathlib import Path

from counter.values.errors import InputError


def path_of(typed: str, what: str = "file") -> Path:
    """The path typed, ~ filled in. Raises InputError when it is empty or cannot be one."""
    if not typed.strip():
        raise InputError(f"Type the path of the {what} first.")
    if "\0" in typed:
        raise InputError(f"The path of the {what} cannot hold the sign NUL; type it again without it.")
    try:
        os.fsencode(typed)
        return Path(typed.strip()).expanduser()
    except RuntimeError:
        raise InputError(f"{typed} begins with a person this computer does not know.") from None
    except UnicodeEncodeError:
        raise InputError(f"The path of the {what} holds a broken character; type it again.") from None
