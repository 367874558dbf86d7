"""Mending a piece: one field at a time, read from plain words, checked, noted as one entry.

What a sale or a split decided (cost, sold, on approval) is not mended here: a refund or a correction
of the sale does that, so that the stock book stays whole.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from counter.desk.stock.item_fields import FIELD, EditableField
from counter.desk.workspace import Workspace
from counter.reference.library import Library
from counter.store.entry import Change
from counter.store.ledger import Ledger
from counter.trade.after_sale import refunded
from counter.values.errors import InputError, UserError
from counter.values.item import CoverFacts, Item, item_from_row, item_to_row

if TYPE_CHECKING:
    from counter.judge.identify import Candidate

_BLANK = Item("")
_OPEN = ("complete", "deposit", "on approval")


def mended(item: Item, key: str, text: str, library: Library) -> Item:
    """The piece with one field as typed; "" empties it, + adds to a list. Raises InputError."""
    field = FIELD[key]
    if not text.strip():
        return _emptied(item, field)
    if field.adds and text.lstrip().startswith("+"):
        more = field.read(text.lstrip()[1:], library, item)
        longer: dict[str, Any] = {each: (*getattr(item, each), *more[each]) for each in field.names}
        return replace(item, **longer)
    return replace(item, **field.read(text, library, item))


def _emptied(item: Item, field: EditableField) -> Item:
    if field.key == "status":
        raise InputError("A piece needs a status: choose in stock, reserved or withdrawn.")
    if field.names:
        return replace(item, **{name: getattr(_BLANK, name) for name in field.names})
    if item.cover is None:
        return item
    cover = replace(item.cover, **{field.key.removeprefix("cover."): ""})
    return replace(item, cover=None if cover == CoverFacts() else cover)


def save_field(workspace: Workspace, number: str, key: str, text: str) -> str:
    """Read, check and note one mended field; says what was noted. Raises UserError: nothing changed."""
    field = FIELD[key]
    item = _piece(workspace, number)
    now = mended(item, key, text, workspace.library)
    if now == item:
        return f"{number}: the {field.label} stands so already; nothing was noted."
    if now.status != item.status:
        _free_to_move(workspace.ledger, item)
    workspace.ledger.note(f"{field.label} corrected", [Change("items", number, item_to_row(now))])
    return f"Noted for {number}: {field.label} {field.said(now) or 'not noted'}."


def note_issue(workspace: Workspace, number: str, found: Candidate) -> str:
    """Note a candidate as the issue of a piece, its value and colour with it. Raises UserError.

    A colour seen on a piece not identified before stays as it was seen.
    """
    item = _piece(workspace, number)
    if item.issue == found.issue_id:
        return f"{number} is {found.name} already; nothing was noted."
    seen = item.colour if not item.issue else ""
    now = replace(
        item, issue=found.issue_id, denomination=found.denomination, colour=seen or found.colour
    )
    verb = "identified anew" if item.issue else "identified"
    workspace.ledger.note(verb, [Change("items", number, item_to_row(now))])
    return f"Noted for {number}: {found.name}."


def _piece(workspace: Workspace, number: str) -> Item:
    row = workspace.ledger.row("items", number)
    if row is None:
        raise UserError(f"There is no stock number {number}.")
    return item_from_row(row)


def _free_to_move(ledger: Ledger, item: Item) -> None:
    """Refuse to move by hand what a sale or a split has moved. Raises UserError."""
    number = item.number
    sale = _sale_that_holds(ledger, number)
    if sale or item.status in ("sold", "on approval"):
        named = f" by {sale}" if sale else ""
        raise UserError(
            f"{number} is {item.status}{named}: a return or refund changes that, not a mend."
        )
    bought = ledger.row("purchases", item.purchase) if item.purchase else None
    if bought and number not in bought.get("items", [number]):
        raise UserError(f"{number} was broken up into other stock numbers, so it stays withdrawn.")


def _sale_that_holds(ledger: Ledger, number: str) -> str:
    """The sale, deposit or approval that a piece is out on; "" when it is free."""
    for row in ledger.rows("sales"):
        held = any(line["item"] == number for line in row.get("lines", ()))
        if not held or row.get("refund_of") or row.get("status", "complete") not in _OPEN:
            continue
        if number not in refunded(ledger, row["id"]):
            return str(row["id"])
    return ""
