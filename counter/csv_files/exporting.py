"""Stock, purchases and sales as CSV files: one line for each piece, sums in pounds as 45.00."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterable, Iterator, Sized
from pathlib import Path
from typing import Any

from counter.csv_files.cells import guard, join
from counter.csv_files.columns import STOCK
from counter.store.files import Disk, must_be_new, os_error_message, write_beside
from counter.store.ledger import Ledger
from counter.store.progress import Progress, go_on, mind
from counter.store.records.money import Foreign
from counter.store.records.purchase import Purchase, Share
from counter.store.records.sale import Sale
from counter.values.errors import InputError
from counter.values.money import plain
from counter.values.record import write_row

# fmt: off
_PURCHASE = (
    "id", "date", "seller", "seller_kind", "scheme", "description", "words", "total", "premium",
    "vat", "costs", "payment", "currency", "amount_minor", "rate", "rate_date", "rate_source",
    "invoice_number", "self_invoiced", "place", "provenance", "cancelled", "item", "share",
    "expected", "basis", "split_date",
)
_SALE = (
    "id", "date", "buyer", "buyer_kind", "status", "disposal", "refund_of", "reason", "total",
    "postage", "discount", "payments", "currency", "amount_minor", "rate", "rate_date",
    "rate_source", "invoice_number", "quote", "exchange_purchase", "due_back", "item",
    "price", "line_discount", "scheme", "cost", "vat_fraction", "vat", "words",
)
# fmt: on
KINDS = ("stock", "purchases", "sales")
_TELL_EVERY = 500  # lines between two words on how far it is


def export(ledger: Ledger, kind: str, file: Path, progress: Progress = go_on) -> int:
    """Write a CSV file (UTF-8 with its mark, for spreadsheets); returns its lines. Raises UserError.

    `progress` counts rows; stopping it raises Stopped, and no file is left.
    """
    must_be_new(file, "the export")
    tables: dict[str, Sized] = {
        "stock": ledger.items,
        "purchases": ledger.purchases,
        "sales": ledger.sales,
    }
    if kind not in tables:
        raise InputError(f"{kind} cannot be exported; there are {', '.join(KINDS)}.")
    total, lines = len(tables[kind]), list[bytes]()
    for number, line in enumerate(_lines(ledger, kind)):
        if number % _TELL_EVERY == 0:
            mind(progress, number, total, "the export")
        lines.append(_written(line).encode())
    try:
        write_beside(file, [codecs.BOM_UTF8, *lines], disk=Disk())
    except OSError as fault:
        raise os_error_message(fault, "the export", file) from fault
    return len(lines) - 1


def _lines(ledger: Ledger, kind: str) -> Iterator[list[str]]:
    if kind == "stock":
        yield [column.heading for column in STOCK]
        for item in ledger.items.records():
            row = write_row(item)
            yield [column.get(row) for column in STOCK]
    elif kind == "purchases":
        yield from _table(_PURCHASE, map(_purchase, ledger.purchases.records()))
    else:
        yield from _table(_SALE, map(_sale, ledger.sales.records()))


def _table(names: tuple[str, ...], deals: Iterable[Iterable[dict[str, Any]]]) -> Iterator[list[str]]:
    yield [name.replace("_", " ") for name in names]
    for lines in deals:
        for line in lines:
            yield [_cell(line.get(name)) for name in names]


def _purchase(purchase: Purchase) -> Iterator[dict[str, Any]]:
    split = purchase.split
    pieces: list[tuple[str | None, Share | None]] = [
        (share.item, share) for share in (split.shares if split else ())
    ]
    pieces = pieces or [(number, None) for number in purchase.items] or [(None, None)]
    for item, share in pieces:
        yield {
            **write_row(purchase),
            **_foreign(purchase.foreign),
            "total": _money(purchase.total_pence),
            "premium": _money(purchase.premium_pence or None),
            "vat": _money(purchase.vat_pence or None),
            "costs": _money(purchase.costs_pence or None),
            "item": item,
            "share": _money(share.pence) if share else "",
            "expected": _money(share.expected_pence) if share else "",
            "basis": split.basis if split else None,
            "split_date": split.date if split else None,
        }


def _sale(sale: Sale) -> Iterator[dict[str, Any]]:
    paid = [f"{each.date} {each.method} {plain(each.pence)}" for each in sale.payments]
    whole = {
        **write_row(sale),
        **_foreign(sale.foreign),
        "total": _money(sale.total_pence or None),
        "postage": _money(sale.postage_pence or None),
        "discount": _money(sale.discount_pence or None),
        "payments": paid,
    }
    for line in sale.lines:
        yield {
            **whole,
            "item": line.item,
            "price": _money(line.price_pence),
            "line_discount": _money(line.discount_pence or None),
            "scheme": line.scheme,
            "cost": _money(line.cost_pence),
            "vat_fraction": line.vat_fraction,
            "vat": _money(line.vat_pence),
            "words": line.words or sale.words,
        }
    if not sale.lines:
        yield whole


def _foreign(foreign: Foreign | None) -> dict[str, Any]:
    return write_row(foreign) if foreign else {}


def _money(pence: int | None) -> str:
    return "" if pence is None else plain(pence)


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return join(value) if isinstance(value, list) else str(value)


def _written(cells: list[str]) -> str:
    out = io.StringIO()
    csv.writer(out).writerow([guard(cell) for cell in cells])
    return out.getvalue()
