"""The stamp in hand against the stock: what adjoins it, what matches it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counter.desk.identify.line_query import Asked
from counter.desk.workspace import Workspace
from counter.judge.finds import finds
from counter.values.item import Item


@dataclass(frozen=True, slots=True)
class FoundLine:
    """A stock line that belongs with the stamp in hand: `why` in plain words, `price` in pence."""

    number: str
    kind: Literal["adjoins", "matches"]
    why: str
    words: str
    price: int | None
    kept: str
    status: str


def stamp_in_hand(asked: Asked, issue: str) -> Item:
    """The stamp that the line speaks of, as the chosen issue; of a stock number, that item.

    Read from the line its number is "", and what was not seen is "not noted".
    """
    reading = asked.reading
    number = reading.first("stock_number")
    kept = asked.workspace.item(number) if number else None
    if kept is not None:
        return kept
    letters = tuple(dict.fromkeys(each.value for each in reading.all("letters")))
    return Item("", issue=issue, plate=reading.first("plate"), letters=letters)


def found_in_stock(workspace: Workspace, item: Item) -> tuple[FoundLine, ...]:
    """What of the stock adjoins the item or pairs with it: adjoining first, then by number.

    Only rows with its plate are looked at, so a large stock costs one pass over plate numbers.
    """
    if not item.issue or not item.plate or not item.letters:
        return ()
    alike = workspace.ledger.items.of_plate(item.plate)
    known = {each.number: each for each in alike if each.number in workspace.index}
    return tuple(
        FoundLine(
            found.number,
            found.kind,
            found.words,
            workspace.index.line(found.number),
            known[found.number].open_price,
            known[found.number].kept,
            known[found.number].status,
        )
        for found in finds(item, alike, workspace.library.stamps)
        if found.number in known
    )
