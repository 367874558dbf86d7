"""Rows the ledger's tests share; numbers and words are invented.

LONG_RUN=200 in the environment makes every property test try 200 times as many examples.
"""

from __future__ import annotations

import errno
import os
from typing import Any

from hypothesis import settings

from counter.store.entry import Change
from counter.store.files import Disk
from counter.store.ledger import Ledger

LONG_RUN = int(os.environ.get("LONG_RUN", "1"))


def tries(count: int) -> settings:
    """How many examples a property test tries."""
    return settings(max_examples=count * LONG_RUN, deadline=None)


def item(number: str, **more: Any) -> Change:
    return Change("items", number, {"number": number, **more})


def note_items(ledger: Ledger, *numbers: str) -> None:
    for number in numbers:
        ledger.note("stock noted", [item(number, asking=4500)])


def purchase(key: str, **more: Any) -> Change:
    return Change("purchases", key, {"id": key, "date": "2026-05-01", "total_pence": 4500, **more})


def sale(key: str, number: str, **more: Any) -> Change:
    lines = [{"item": number, "price_pence": 7250}]
    return Change("sales", key, {"id": key, "date": "2026-05-02", "lines": lines, **more})


def person(key: str, **more: Any) -> Change:
    return Change("people", key, {"id": key, "name": "Ada Pennington", **more})


class BadDisk(Disk):
    """A disk with so many bytes left, or whose sync fails."""

    def __init__(self) -> None:
        self.left = 10**9
        self.sync_fault = 0

    def write(self, handle: int, data: bytes, at: int) -> int:
        if self.left <= 0:
            raise OSError(errno.ENOSPC, "No space left on device")
        written = super().write(handle, data[: self.left], at)
        self.left -= written
        return written

    def sync(self, handle: int) -> None:
        if self.sync_fault:
            raise OSError(self.sync_fault, "Input/output error")
        super().sync(handle)
