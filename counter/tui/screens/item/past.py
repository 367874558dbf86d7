"""What became of a piece: when, what was done, and what it changed; read from the journal."""

from __future__ import annotations

from collections.abc import Sequence

from counter.desk.stock.item_fields import EDITABLE
from counter.desk.stock.item_history import HistoryEntry, item_history
from counter.store.ledger import Ledger
from counter.tui.widgets.background_job import in_background
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line
from counter.values.dates import short_day
from counter.values.item import Item

#: The label of the price asked, among what may be corrected.
_ASKED = next(each.label for each in EDITABLE if each.key == "asking")


class Past(ScrollPage):
    """Reads the whole journal in a thread when it is shown."""

    DEFAULT_CSS = "Past { display: none; }"

    def __init__(self, ledger: Ledger) -> None:
        super().__init__(lambda width: past_lines([], width))
        self.ledger = ledger

    def look_back(self, item: Item) -> None:
        """Show what touched a piece; of a sold one without its prices, which are the dealer's own."""
        hidden = "" if item.status != "sold" else _ASKED
        self.show(lambda width: prose("The journal is being read …", width, "dim"))

        in_background(
            self,
            "past",
            lambda: item_history(self.ledger, item.number),
            then=lambda found: self.show(lambda width: past_lines(found, width, hidden)),
            failed=lambda sentence: self.show(lambda width: prose(sentence, width, "care")),
        )


def past_lines(found: Sequence[HistoryEntry], width: int, hidden: str = "") -> list[Line]:
    """The latest entry first, its changes under it but those of the label `hidden`."""
    if not found:
        return prose("Nothing was noted of it in this journal.", width, "dim")
    lines: list[Line] = [[]]
    for touch in found:
        day, _, time = touch.at.partition("T")
        lines.append(
            [(f"  {short_day(day):>11} ", "accent"), (f"{time[:5]}  ", "dim"), (touch.verb, "strong")]
        )
        for label, before, after in touch.changes:
            if label == hidden:
                continue
            words = f"{before or 'not noted'} → {after or 'not noted'}"
            lines += prose(words, width, head=(f"{'':21}{label}: ", "dim"))
    return lines
