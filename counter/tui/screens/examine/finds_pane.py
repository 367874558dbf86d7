"""Finds in stock: what adjoins the stamp in hand or pairs with it, and why."""

from __future__ import annotations

from counter.tui.screens.examine.state import Looking
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.text import Line, two_ends, wrap
from counter.values.money import pounds


class Finds(LineList):
    """A find a row: number, how it belongs, short line, price."""

    def __init__(self, looking: Looking) -> None:
        super().__init__(id="finds")
        self.looking = looking

    def count(self) -> int:
        """How many there are."""
        return len(self.looking.found or ())

    def line_at(self, y: int, width: int) -> Line:
        """The rows, or why there are none, wrapped."""
        if self.count():
            return super().line_at(y, width)
        lines = wrap(self.empty(), width - 4)
        return [("  " + lines[y], "dim")] if y < len(lines) else []

    def empty(self) -> str:
        """Why there is nothing to show."""
        item = self.looking.in_hand()
        if not item or not item.letters:
            return "Finds need letters: type them in the line, KC or CKKC."
        if not item.plate:
            return "Letters alone prove nothing: add the plate to the line, as pl 6."
        if self.looking.found is None:
            return "Looking through the stock …"
        return "Nothing in stock adjoins this stamp or pairs with it."

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """The number and the price are never cut."""
        found = (self.looking.found or ())[index]
        taken = self.looking.board.quote.holds(found.number)
        price = pounds(found.price) if found.price is not None else "no price"
        status = "" if found.status == "in stock" else f" {found.status}"
        left: Line = [mark(chosen), (f"{found.number:<8} ", "strong" if chosen else "accent")]
        left += [("✓ ", "good")] if taken else []
        left += [(f"{found.kind:<8} ", "good"), (found.words, "plain")]
        return two_ends(left, [(status, "care"), (f" {price:>9}", "price")], width)


class FindWhy(LineWidget):
    """Below the finds: why the chosen one belongs, and where it is kept."""

    DEFAULT_CSS = "FindWhy { height: 3; }"

    def __init__(self, looking: Looking, finds: Finds) -> None:
        super().__init__(id="find-why")
        self.looking = looking
        self.finds = finds

    def line_at(self, y: int, width: int) -> Line:
        """Wrapped words."""
        found = self.looking.found or ()
        if self.finds.cursor >= len(found):
            return []
        chosen = found[self.finds.cursor]
        kept = f"; kept {chosen.kept}" if chosen.kept else ""
        lines = wrap(chosen.why + kept, width - 4)
        return [("  " + lines[y], "plain")] if y < len(lines) else []
