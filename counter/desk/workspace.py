"""What is open on the desk: the reference, the ledger, the index of the stock, and the clocks."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from time import monotonic
from typing import Any

from counter.describe.names import Names
from counter.reference.library import Library
from counter.search.index import StockIndex
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.values.item import Item


class Workspace:
    """Everything the verbs of the desk work with; it knows none of them.

    `clock` gives the local time and `ticks` seconds that never go back; nothing below the desk looks
    at a clock of its own.
    """

    def __init__(
        self,
        library: Library,
        ledger: Ledger,
        names: Names,
        *,
        clock: Callable[[], datetime],
        ticks: Callable[[], float] = monotonic,
    ) -> None:
        self.library = library
        self.ledger = ledger
        self.names = names
        self.index = StockIndex(names)
        self.clock = clock
        self.ticks = ticks

    def today(self) -> date:
        """The day by the clock."""
        return self.clock().date()

    def item(self, number: str) -> Item | None:
        """The item of a stock number as it may be typed (case and hyphens do not matter), or None."""
        return self.ledger.items.typed(number)

    def keep_draft(self, name: str, row: Mapping[str, Any] | None) -> None:
        """Keep an unfinished note for the next opening (None: there is none any more).

        A window that only reads keeps none.
        """
        if self.ledger.read_only or self.ledger.row("drafts", name) == (dict(row) if row else None):
            return
        self.ledger.note(f"{name} left unfinished", [Change("drafts", name, row)])

    def draft(self, name: str) -> Mapping[str, Any] | None:
        """The unfinished note of that name."""
        return self.ledger.row("drafts", name)
