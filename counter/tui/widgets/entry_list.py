"""A list of anything: the entries, and how one is drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from counter.tui.text import Line
from counter.tui.widgets.list_view import LineList, mark

T = TypeVar("T")


class EntryList(LineList, Generic[T]):
    """Entries drawn by `draw(entry, width)`; the sign of the chosen one is put before it."""

    def __init__(
        self, draw: Callable[[T, int], Line], nothing: str = "", *, id: str | None = None
    ) -> None:
        super().__init__(id=id)
        self.draw = draw
        self.nothing = nothing
        self.entries: Sequence[T] = ()

    def show(self, entries: Sequence[T], *, stay: bool = False) -> None:
        """Other entries, from the first on; `stay` keeps the cursor where it is."""
        self.entries = entries
        if stay and entries:
            self.go(self.cursor)
        elif not stay:
            self.start_again()
        self.refresh()

    @property
    def chosen(self) -> T | None:
        """The entry under the cursor."""
        return self.entries[self.cursor] if self.cursor < len(self.entries) else None

    def count(self) -> int:
        """How many entries."""
        return len(self.entries)

    def empty(self) -> str:
        """The words for no entry."""
        return f"  {self.nothing}" if self.nothing else ""

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """The entry as a line."""
        return [mark(chosen), *self.draw(self.entries[index], max(width - 2, 0))]
