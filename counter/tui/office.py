"""The rooms of the back office, opened from every screen: the book, sales, people, house, quotes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import App

from counter.tui.counter.board import Board
from counter.tui.kit.sheet import Sheet

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class Office(App[None]):
    """The app's actions that open a room; a room already in front stays as it is."""

    desk: Desk | None

    @property
    def board(self) -> Board:
        """The counter's state, where the quote in hand is."""
        raise NotImplementedError

    def renewed(self) -> None:
        """The stock or the quote may be another now: the counter looks again."""
        raise NotImplementedError

    def _enter(self, room: Sheet) -> None:
        if type(self.screen) is not type(room):
            self.push_screen(room, lambda _: self.renewed())

    def do_day(self) -> None:
        """The day: takings, the box, what is still to complete."""
        from counter.tui.books.day.screen import DaySheet

        if self.desk:
            self._enter(DaySheet(self.desk))

    def do_book(self) -> None:
        """The stock book of a period."""
        from counter.tui.books.book.screen import BookSheet

        if self.desk:
            self._enter(BookSheet(self.desk))

    def do_sales(self) -> None:
        """The sales, found again."""
        from counter.tui.selling.sales.screen import SalesSheet

        if self.desk:
            self._enter(SalesSheet(self.desk))

    def do_people(self) -> None:
        """The people."""
        from counter.tui.books.people.screen import PeopleSheet

        if self.desk:
            self._enter(PeopleSheet(self.desk))

    def do_house(self) -> None:
        """The house's settings."""
        from counter.tui.books.house.screen import HouseSheet

        if self.desk:
            self._enter(HouseSheet(self.desk))

    def do_kept(self) -> None:
        """The kept quotes."""
        from counter.tui.selling.kept.screen import KeptSheet

        if self.desk:
            under = self.screen
            say = under.say if isinstance(under, Sheet) else lambda _: None
            self._enter(KeptSheet(self.board, self.desk, say))
