"""Papers of a sale or a purchase by its number, and files written where the dealer says."""

from __future__ import annotations

from pathlib import Path

from counter.desk.trade.trading import Trading
from counter.desk.workspace import Workspace
from counter.documents.customer_papers import (
    approval_paper,
    deposit_paper,
    quotation,
    statement,
)
from counter.documents.invoices import purchase_invoice, sale_invoice
from counter.documents.layout import Layout
from counter.documents.paper import Paper
from counter.documents.write_file import write_whole
from counter.documents.write_layout import file_of
from counter.values.paths import path_of


def paper_of(trading: Trading, number: str) -> Paper:
    """The paper of a sale as it stands, a purchase or a quote; a person's statement. Raises UserError.

    A sale that mixes schemes has a paper for each: WK-S1/margin, WK-S1/ordinary.
    """
    ledger, names, house = trading.ledger, trading.names, trading.settings
    if purchase := ledger.purchases.find(number):
        return purchase_invoice(house, purchase, names)
    if quote := ledger.quotes.find(number):
        return quotation(house, quote, names)
    if who := ledger.people.find(number):
        return statement(house, who, trading.today)
    key, _, only = number.partition("/")
    sale = ledger.sales.of(key)
    if sale.status in ("on approval", "returned"):
        return approval_paper(house, sale, names)
    if sale.status in ("deposit", "cancelled"):
        return deposit_paper(house, sale, names)
    return sale_invoice(house, sale, names, only)


def paper_person(trading: Trading, number: str) -> str:
    """Who stands on the paper of a number: a person's id, or ""."""
    ledger = trading.ledger
    if purchase := ledger.purchases.find(number):
        return purchase.seller
    if quote := ledger.quotes.find(number):
        return quote.customer
    sale = ledger.sales.find(number.partition("/")[0])
    return sale.buyer if sale else number if ledger.people.find(number) else ""


def file_path(workspace: Workspace, typed: str) -> Path:
    """Where a file goes: as typed, ~ understood; a bare name goes into the data folder."""
    path = path_of(typed)
    return path if path.is_absolute() else workspace.ledger.folder / path


def write_file(workspace: Workspace, typed: str, content: str | Layout) -> Path:
    """Write a file whole, over one of that name (the screen says so); where it is. Raises UserError.

    A paper is written as its name ends: .pdf or .html.
    """
    path = file_path(workspace, typed)
    whole = file_of(path, content) if isinstance(content, Layout) else content
    write_whole(path, whole, over=True)
    return path
