"""The base of screens that list what is noted, narrowed while one types."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar, Generic, TypeVar

from textual.app import ComposeResult

from counter.tui.widgets.base_screen import BaseScreen
from counter.tui.widgets.heading import Heading
from counter.tui.widgets.list_view import EntryList, LineList
from counter.tui.widgets.text import Line
from counter.tui.widgets.text_entry import PromptedEntry, TextEntry

if TYPE_CHECKING:
    from counter.desk.desk import Desk

T = TypeVar("T")


class SearchScreen(BaseScreen, Generic[T]):
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

    def body(self) -> ComposeResult:
        """A filter and the list."""
        yield Heading(self.TITLE_WORDS)
        yield PromptedEntry("find", self.HINT, entry="filter")
        yield EntryList[T](self.drawn, self.NOTHING)
        yield from self.below()

    def on_mount(self) -> None:
        """Found while it is typed."""
        entry = self.query_one(TextEntry)
        self.watch(entry, "value", lambda _: self.find(), init=False)
        entry.focus()

    def on_screen_resume(self) -> None:
        """In front (again)."""
        super().on_screen_resume()
        self.find(stay=True)

    def find(self, *, stay: bool = False) -> None:
        """Look again for what is typed."""
        self.query_one(EntryList).show(self.found(self.query_one(TextEntry).value), stay=stay)

    @property
    def chosen(self) -> T | None:
        """The one under the cursor."""
        chosen: T | None = self.query_one(EntryList).chosen
        return chosen

    def on_line_list_taken(self, event: LineList.Taken) -> None:
        """Clicked twice."""
        self.do_open()

    def do_open(self) -> None:
        """Enter."""
        if self.chosen is not None:
            self.open_it(self.chosen)
