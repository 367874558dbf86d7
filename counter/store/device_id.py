"""The laptop's own name: in every entry it notes, and the start of every number it gives out.

Two laptops at two fairs must never give out the same stock number, so each has its own letters:
"WK-12" is the twelfth piece noted on WK. The letters start with U to Z, which no check letter does.
"""

from __future__ import annotations

import re
import secrets
from pathlib import Path

from counter.store.files import Disk, write_beside
from counter.values.errors import UserError

NAME = "laptop"
_SHAPE = re.compile(r"([A-Z]{1,3})(-[0-9a-f]{6})?")
_LETTER = {
    "items": "",
    "purchases": "P",
    "sales": "S",
    "quotes": "Q",
    "people": "N",
    "baths": "B",
    "cash": "C",
    "costs": "K",
    "fairs": "F",
    "returns": "R",
    "drafts": "D",
}


def laptop_of(folder: Path, wanted: str | None, *, disk: Disk, keep: bool) -> str:
    """The folder's laptop, made on first use (`wanted`, or two letters and six digits by lot).

    Raises UserError when `wanted` is misshapen or another laptop's. Raises OSError on a disk's refusal.
    """
    if wanted is not None and not _SHAPE.fullmatch(wanted):
        raise UserError(f"A laptop is named by one to three capital letters, not {wanted!r}.")
    path = folder / NAME
    found = path.read_text().strip() if path.exists() else ""
    if _SHAPE.fullmatch(found):
        if wanted not in (None, found):
            raise UserError(f"This data folder belongs to laptop {found}, not {wanted}.")
        return found
    name = wanted or _by_lot()
    if keep:
        write_beside(path, [f"{name}\n".encode()], disk=disk)
    return name


def prefix(laptop: str, table: str) -> str:
    """What this laptop's numbers for a table start with. Raises UserError on a table without numbers."""
    if table not in _LETTER:
        raise UserError(f"The rows of {table} are not numbered.")
    return f"{laptop.split('-')[0]}-{_LETTER[table]}"


def _by_lot() -> str:
    first, second = secrets.choice("UVWXYZ"), secrets.choice("BCDFGHJKLMNPQRSTVWXYZ")
    return f"{first}{second}-{secrets.token_hex(3)}"
