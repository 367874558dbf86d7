"""Mending a piece: one field at a time, read from plain words, checked, noted as one entry.

What a sale or a split decided (cost, sold, on approval) is not mended here: a refund or a correction
of the sale does that, so that the stock book stays whole.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from counter.desk.stock.item_fields import FIELD, EditableField
from counter.desk.workspace import Workspace
from counter.reference.library import Library
from counter.store.ledger import Ledger
from counter.store.records.check import put
from counter.values.dates import day_words
from counter.values.errors import InputError, UserError
from counter.values.item import CoverFacts, Item
from counter.values.visible import share_words

if TYPE_CHECKING:
    from counter.judge.identify import Candidate

_BLANK = Item("")


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
    emptied: dict[str, Any] = {field.key.removeprefix("cover."): ""}
    cover = replace(item.cover, **emptied)
    return replace(item, cover=None if cover == CoverFacts() else cover)


def save_field(workspace: Workspace, number: str, key: str, text: str) -> str:
    """Read, check and note one mended field; says what was noted. Raises UserError: nothing changed."""
    field = FIELD[key]
    item = workspace.ledger.items.of(number)
    now = mended(item, key, text, workspace.library)
    if now == item:
        return f"{number}: the {field.label} stands so already; nothing was noted."
    if now.status != item.status:
        _free_to_move(workspace.ledger, item)
    workspace.ledger.note(f"{field.label} corrected", [put(now)])
    return f"Noted for {number}: {field.label} {field.said(now) or 'not noted'}."


def note_issue(workspace: Workspace, number: str, found: Candidate) -> str:
    """Note a candidate as the issue of a piece: value, colour, die and alphabet with it. Raises UserError.

    A colour seen on a piece not identified before stays as it was seen. What it was known by is kept
    among the piece's remarks, which no customer's line shows, and so in its history.
    """
    item = workspace.ledger.items.of(number)
    if found.issue_id not in workspace.library.stamps.issues:
        raise UserError(
            f"{found.name}: that is no issue to note; say it in the words of {number} instead."
        )
    if item.issue == found.issue_id:
        return f"{number} is {found.name} already; nothing was noted."
    seen = item.colour if not item.issue else ""
    told = workspace.library.stamps.issues[found.issue_id].characters
    now = replace(
        item,
        issue=found.issue_id,
        denomination=found.denomination or item.denomination,
        colour=seen or found.colour,
        die=_of_issue(item.die, told.dies),
        alphabet=_of_issue(item.alphabet, told.alphabets),
        remarks="; ".join(filter(None, (item.remarks, _known_by(found, workspace)))),
    )
    verb = "identified anew" if item.issue else "identified"
    workspace.ledger.note(verb, [put(now)])
    return f"Noted for {number}: {found.name}."


def _of_issue(noted: str, possible: tuple[str, ...]) -> str:
    """A die or alphabet as noted where the issue has it, else the only one the issue has."""
    if noted in possible:
        return noted
    return possible[0] if len(possible) == 1 else ""


#: So many reasons are kept with a piece: what decided, not all that agreed.
_REASONS_KEPT = 3


def _known_by(found: Candidate, workspace: Workspace) -> str:
    """What an identification rested on, in a sentence: the day, the share and the strongest reasons."""
    day = day_words(workspace.today().isoformat())
    reasons = "; ".join(reason.text for reason in found.speaks_for[:_REASONS_KEPT])
    against = "".join(f"; against it: {reason.text}" for reason in found.against[:1])
    sure = share_words(found.share).strip()
    return f"identified {day} as {found.name}, {sure}: {reasons or 'no reason noted'}{against}"


def _free_to_move(ledger: Ledger, item: Item) -> None:
    """Refuse to move by hand what a sale or a split has moved. Raises UserError."""
    number = item.number
    sale = next((each.id for each in ledger.sales.holding(number)), "")
    if sale or item.status in ("sold", "on approval"):
        named = f" by {sale}" if sale else ""
        raise UserError(
            f"{number} is {item.status}{named}: a return or refund changes that, not a mend."
        )
    bought = ledger.purchases.find(item.purchase)
    if bought and number not in bought.items:
        raise UserError(f"{number} was broken up into other stock numbers, so it stays withdrawn.")
