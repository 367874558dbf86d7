"""The one table of screens by name, and the way from one to another: `open_screen("sales", desk)`.

No screen imports another: a screen is read in when it is first opened, so that the first frame waits
for its own alone, and the imports run in no circle.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from importlib import import_module
from typing import Any

from counter.tui.keys_in_order import KeysInOrder
from counter.tui.widgets.app_services import AppServices
from counter.tui.widgets.base_screen import BaseScreen

#: Each screen by its name: the module in counter.tui.screens and the class. A new screen is added here.
SCREENS = {
    "after_sale": "after_sale:AfterSaleScreen",
    "cash_box": "cash_box:CashBoxScreen",
    "command_palette": "command_palette:CommandPalette",
    "complete_purchase": "complete_purchase:CompletePurchaseScreen",
    "confirm": "confirm:ConfirmScreen",
    "conflicts": "conflicts:ConflictsScreen",
    "counter": "counter.screen:CounterScreen",
    "cover": "cover.screen:CoverScreen",
    "data_files": "data_files:DataFilesScreen",
    "data_job": "data_job.screen:DataJobScreen",
    "day": "day.screen:DayScreen",
    "edit_item": "edit_item:EditItemScreen",
    "examine": "examine.screen:ExamineScreen",
    "help": "help:HelpScreen",
    "import_columns": "import_columns:ImportColumnsScreen",
    "import_stock": "import_stock.screen:ImportStockScreen",
    "invoice": "invoice:InvoiceScreen",
    "item": "item.screen:ItemScreen",
    "people": "people:PeopleScreen",
    "peroxide": "peroxide.screen:PeroxideScreen",
    "person": "person:PersonScreen",
    "price_in_hand": "price_in_hand:PriceInHandScreen",
    "put_right": "put_right:PutRightScreen",
    "quote": "quote:QuoteScreen",
    "sales": "sales:SalesScreen",
    "save_file": "save_file:SaveFileScreen",
    "save_quote": "save_quote:SaveQuoteScreen",
    "saved_quotes": "saved_quotes:SavedQuotesScreen",
    "sell": "sell:SellScreen",
    "settings": "settings:SettingsScreen",
    "split_lot": "split_lot:SplitLotScreen",
    "stock_book": "stock_book.screen:StockBookScreen",
    "treatment": "treatment.screen:TreatmentScreen",
    "treatment_checks": "treatment_checks.screen:TreatmentChecksScreen",
    "treatment_done": "treatment_done:TreatmentDoneScreen",
    "treatment_timer": "treatment_timer.screen:TreatmentTimerScreen",
    "treatments": "treatments.screen:TreatmentsScreen",
}


def screen_class(name: str) -> type[BaseScreen]:
    """The class of a screen, read in when it is first asked for."""
    module, _, kind = SCREENS[name].partition(":")
    found: type[BaseScreen] = getattr(import_module(f"counter.tui.screens.{module}"), kind)
    return found


def _make(name: str, given: tuple[object, ...], named: dict[str, object]) -> BaseScreen:
    make: Callable[..., BaseScreen] = screen_class(name)
    return make(*given, **named)


def read_in(names: Iterable[str]) -> None:
    """Read screens in before they are wanted, so that their first key is quick too."""
    for name in names:
        screen_class(name)


class Navigation(KeysInOrder, AppServices):
    """The app's ways between screens; the rooms of the back office are opened from every screen."""

    def look_again(self) -> None:
        """The stock or the quote may be another now: the counter looks again."""
        raise NotImplementedError

    def open_screen(
        self, name: str, *given: object, then: Callable[[Any], None] | None = None, **named: object
    ) -> None:
        """Open the screen of a name over this one; `then` hears of it once it is left."""
        screen = _make(name, given, named)
        self.push_screen(screen, (lambda _: then(screen)) if then else None)

    def replace_screen(self, name: str, *given: object, **named: object) -> None:
        """Open the screen of a name in the place of this one."""
        self.switch_screen(_make(name, given, named))

    def open_once(self, name: str, *given: object, then: Callable[[Any], None] | None = None) -> None:
        """Open a screen unless it is in front already."""
        if type(self.screen) is not screen_class(name):
            self.open_screen(name, *given, then=then)

    def _enter(self, name: str) -> None:
        if self.desk:
            self.open_once(name, self.desk, then=lambda _: self.look_again())

    def do_day(self) -> None:
        """The day: takings, the box, what is still to complete."""
        self._enter("day")

    def do_book(self) -> None:
        """The stock book of a period."""
        self._enter("stock_book")

    def do_sales(self) -> None:
        """The sales, found again."""
        self._enter("sales")

    def do_people(self) -> None:
        """The people."""
        self._enter("people")

    def do_house(self) -> None:
        """The house's settings."""
        self._enter("settings")

    def do_kept(self) -> None:
        """The kept quotes."""
        under = self.screen
        if self.desk and isinstance(under, BaseScreen):
            self.open_once(
                "saved_quotes", self.board, self.desk, under.say, then=lambda _: self.look_again()
            )
