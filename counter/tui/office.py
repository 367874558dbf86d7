"""The rooms of the back office, opened from every screen: the book, sales, people, house, quotes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.tui.keys_in_order import KeysInOrder
from counter.tui.screens.counter.board import Board
from counter.tui.widgets.base_screen import BaseScreen

if TYPE_CHECKING:
    from counter.desk.desk import Desk


class Office(KeysInOrder):
    """The app's actions that open a room; a room already in front stays as it is."""

    desk: Desk | None

    @property
    def board(self) -> Board:
        """The counter's state, where the quote in hand is."""
        raise NotImplementedError

    def renewed(self) -> None:
        """The stock or the quote may be another now: the counter looks again."""
        raise NotImplementedError

    def _enter(self, room: BaseScreen) -> None:
        if type(self.screen) is not type(room):
            self.push_screen(room, lambda _: self.renewed())

    def do_day(self) -> None:
        """The day: takings, the box, what is still to complete."""
        from counter.tui.screens.day.screen import DayScreen

        if self.desk:
            self._enter(DayScreen(self.desk))

    def do_book(self) -> None:
        """The stock book of a period."""
        from counter.tui.screens.stock_book.screen import StockBookScreen

        if self.desk:
            self._enter(StockBookScreen(self.desk))

    def do_sales(self) -> None:
        """The sales, found again."""
        from counter.tui.screens.sales import SalesScreen

        if self.desk:
            self._enter(SalesScreen(self.desk))

    def do_people(self) -> None:
        """The people."""
        from counter.tui.screens.people import PeopleScreen

        if self.desk:
            self._enter(PeopleScreen(self.desk))

    def do_house(self) -> None:
        """The house's settings."""
        from counter.tui.screens.settings import SettingsScreen

        if self.desk:
            self._enter(SettingsScreen(self.desk))

    def do_kept(self) -> None:
        """The kept quotes."""
        from counter.tui.screens.saved_quotes import SavedQuotesScreen

        if self.desk:
            under = self.screen
            say = under.say if isinstance(under, BaseScreen) else lambda _: None
            self._enter(SavedQuotesScreen(self.board, self.desk, say))
