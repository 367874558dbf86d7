"""Papers of a sale or a purchase by its number, and files written where the dealer says."""

from __future__ import annotations

from pathlib import Path

from counter.desk.trade.trading import Trading
from counter.desk.workspace import Workspace
from counter.documents.invoices import Paper, purchase_invoice, sale_invoice
from counter.documents.write_file import write_whole
from counter.values.paths import path_of


def paper_of(trading: Trading, number: str) -> Paper:
    """The invoice of a sale, or of a purchase from the public. Raises UserError.

    A sale that mixes schemes has a paper for each: WK-S1/margin, WK-S1/ordinary.
    """
    ledger, names = trading.ledger, trading.names
    if purchase := ledger.purchases.find(number):
        return purchase_invoice(trading.settings, purchase, names)
    sale, _, only = number.partition("/")
    return sale_invoice(trading.settings, ledger.sales.of(sale), names, only)


def paper_person(trading: Trading, number: str) -> str:
    """Who stands on the paper of a number: a person's id, or ""."""
    ledger = trading.ledger
    if purchase := ledger.purchases.find(number):
        return purchase.seller
    sale = ledger.sales.find(number)
    return sale.buyer if sale else ""


def file_path(workspace: Workspace, typed: str) -> Path:
    """Where a file goes: as typed, ~ understood; a bare name goes into the data folder."""
    path = path_of(typed)
    return path if path.is_absolute() else workspace.ledger.folder / path


def write_file(workspace: Workspace, typed: str, content: str) -> Path:
    """Write a file whole, over one of that name (the screen says so); where it is. Raises UserError."""
    path = file_path(workspace, typed)
    write_whole(path, content, over=True)
    return path
