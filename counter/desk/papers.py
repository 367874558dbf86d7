"""Papers of a sale or a purchase by its number, and files written where the dealer says."""

from __future__ import annotations

from pathlib import Path

from counter.desk.dealing import Dealing
from counter.desk.desk import Desk
from counter.ledger.afterwards import read_sale
from counter.ledger.buying import read_purchase
from counter.ledger.papers.invoices import Paper, purchase_invoice, sale_invoice
from counter.ledger.papers.whole_file import write_whole
from counter.values.paths import path_of


def paper_of(dealing: Dealing, number: str) -> Paper:
    """The invoice of a sale, or of a purchase from the public. Raises Trouble."""
    ledger, names = dealing.desk.ledger, dealing.desk.names
    if ledger.row("purchases", number):
        return purchase_invoice(dealing.house, read_purchase(ledger, number), names)
    return sale_invoice(dealing.house, read_sale(ledger, number), names)


def paper_person(dealing: Dealing, number: str) -> str:
    """Who stands on the paper of a number: a person's id, or ""."""
    ledger = dealing.desk.ledger
    row = ledger.row("purchases", number) or ledger.row("sales", number) or {}
    return str(row.get("seller") or row.get("buyer") or "")


def file_path(desk: Desk, typed: str) -> Path:
    """Where a file goes: as typed, ~ understood; a bare name goes into the data folder."""
    path = path_of(typed)
    return path if path.is_absolute() else desk.ledger.folder / path


def write_file(desk: Desk, typed: str, content: str) -> Path:
    """Write a file whole, over one of that name (the screen says so); where it is. Raises Trouble."""
    path = file_path(desk, typed)
    write_whole(path, content, over=True)
    return path
