"""A plate of the stock as a sheet, and many pieces of one plate entered from a line."""

from __future__ import annotations

import re

from msgspec.structs import replace

from counter.desk.stock.item_from_text import read_piece
from counter.desk.workspace import Workspace
from counter.judge.letters import PlateSheet, plate_sheet
from counter.judge.reading import read_line
from counter.reference.library import Library
from counter.reference.stamps_issue import Issue
from counter.store.records.check import put
from counter.values.errors import InputError
from counter.values.item import Item
from counter.values.letters import Format, lower_pair, place, read_letters

#: KC, CKKC, or of a multiple KC-KD, and whatever is said of it.
_LETTERED = re.compile(
    r"(?P<letters>(?:[a-z]{2}){1,2}(?:-(?:[a-z]{2}){1,2})*)(?:\s+(?P<rest>.*))?", re.IGNORECASE
)
_LINE = re.compile(r"(?:pl(?:ate)?\.?\s*)?(?P<plate>\w+)\s*:\s*(?P<pieces>.*)", re.IGNORECASE)


def plate_of_stock(workspace: Workspace, issue: Issue, plate: str) -> PlateSheet:
    """The plate with the pieces of stock in it; one pass over the pieces of that plate number."""
    return plate_sheet(issue, plate, workspace.ledger.items.of_plate(plate))


def read_plate_lines(text: str, issue: Issue, library: Library) -> list[Item]:
    """The pieces of lines such as "pl 9: KC 4m red, MF 3m black thin", without numbers yet.

    A second colour is the cancel's. Raises InputError naming the first piece that cannot be entered.
    """
    items: list[Item] = []
    for line in filter(str.strip, text.splitlines()):
        found = _LINE.fullmatch(line.strip())
        if not found:
            raise InputError(f"{line.strip()!r} begins with no plate: write pl 9: KC 4m red, MF thin.")
        plate = found["plate"]
        if plate not in library.stamps.plate_numbers[issue.id]:
            raise InputError(f"{issue.name} has no plate {plate}.")
        items += [_piece(each, plate, issue, library) for each in _pieces(found["pieces"])]
    if not items:
        raise InputError("There is no piece in it: write pl 9: KC 4m red, MF 3m black thin.")
    return items


def _pieces(text: str) -> list[str]:
    return [piece.strip() for piece in re.split(r"[,;]", text) if piece.strip()]


def _piece(words: str, plate: str, issue: Issue, library: Library) -> Item:
    """One piece: its letters first, for "OG" and "SC" are places of a sheet too; the rest is read."""
    found = _LETTERED.fullmatch(words)
    if not found:
        raise InputError(
            f"No letters are read in {words!r} of plate {plate}: begin with them, KC 4m red."
        )
    told = issue.characters
    sheet = Format(told.rows or 20, told.columns or 12)
    letterings = tuple(read_letters(each) for each in found["letters"].split("-"))
    for letters in letterings:
        if place(lower_pair(letters), sheet) is None:
            raise InputError(
                f"A sheet of {sheet.name} has no {letters}: look at {words!r} of plate {plate}."
            )
    stamp, rest = told.stamps[0], found["rest"] or ""
    item = read_piece(f"{rest} mx" if _only_a_colour(rest, library) else rest, library).item
    return replace(
        item,
        issue=issue.id,
        denomination=stamp.value,
        colour=stamp.colours[0],
        plate=plate,
        letters=letterings,
    )


def _only_a_colour(words: str, library: Library) -> bool:
    """Whether a colour is said and no cancel: of a plate's pieces it is the colour of the cross."""
    read = read_line(words, library.vocabulary)
    return bool(read.all("colour")) and not read.all("cancel") and not read.all("cancel_colour")


def enter_pieces(workspace: Workspace, items: list[Item]) -> list[Item]:
    """Note the pieces, each under a number of its own, all or none; the pieces as they are kept."""
    ledger, day = workspace.ledger, workspace.today().isoformat()
    kept = [
        replace(each, number=ledger.next_number("items"), status="in stock", noted=day)
        for each in items
    ]
    ledger.note("pieces of a plate entered", [put(each) for each in kept])
    return kept
