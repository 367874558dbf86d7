"""The base of screens that list what is noted, narrowed while one types."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar, Generic, TypeVar

from textual.app import ComposeResult

from counter.tui.kit.entry import Entry
from counter.tui.kit.entry_row import EntryRow
from counter.tui.kit.foot import Foot
from counter.tui.kit.listed import Listed
from counter.tui.kit.rows import Rows
from counter.tui.kit.rule import Rule
from counter.tui.kit.sheet import Sheet
from counter.tui.kit.told import Told
from counter.tui.text import Line

if TYPE_CHECKING:
    from counter.desk.desk import Desk

T = TypeVar("T")


class FindSheet(Sheet, Generic[T]):
    """Subclasses give `found`, `drawn` and `open_it`, and the words that stand in the three places."""

    TITLE_WORDS: ClassVar[str] = ""
    HINT: ClassVar[str] = ""
    NOTHING: ClassVar[str] = ""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk

    def found(self, words: str) -> Sequence[T]:
        """What holds every word; everything for no words."""
        raise NotImplementedError

    def drawn(self, each: T, width: int) -> Line:
        """One of them as a line."""
        raise NotImplementedError

    def open_it(self, each: T) -> None:
        """What Enter does with the chosen one."""
        raise NotImplementedError

    def below(self) -> ComposeResult:
        """What stands under the list."""
        yield from ()

    def compose(self) -> ComposeResult:
        """A filter and the list."""
        yield Rule(self.TITLE_WORDS)
        yield EntryRow("find", self.HINT, entry="filter")
        yield Listed[T](self.drawn, self.NOTHING)
        yield from self.below()
        yield Told()
        yield Foot(self.PLACE)

    def on_mount(self) -> None:
        """Found while it is typed."""
        entry = self.query_one(Entry)
        self.watch(entry, "value", lambda _: self.find(), init=False)
        entry.focus()

    def on_screen_resume(self) -> None:
        """In front (again)."""
        super().on_screen_resume()
        self.find(stay=True)

    def find(self, *, stay: bool = False) -> None:
        """Look again for what is typed."""
        self.query_one(Listed).show(self.found(self.query_one(Entry).value), stay=stay)

    @property
    def chosen(self) -> T | None:
        """The one under the cursor."""
        chosen: T | None = self.query_one(Listed).chosen
        return chosen

    def on_rows_taken(self, event: Rows.Taken) -> None:
        """Clicked twice."""
        self.do_open()

    def do_up(self) -> None:
        """The one before."""
        self.query_one(Listed).move(-1)

    def do_down(self) -> None:
        """The next one."""
        self.query_one(Listed).move(1)

    def do_open(self) -> None:
        """Enter."""
        if self.chosen is not None:
            self.open_it(self.chosen)
