"""Stock, purchases and sales as CSV files: one line for each piece, sums in pounds as 45.00."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from counter.csv_files.cells import guard, join
from counter.csv_files.columns import STOCK
from counter.store.files import Disk, must_be_new, why_not, write_beside
from counter.store.ledger import Ledger
from counter.store.progress import Progress, go_on, mind
from counter.values.errors import InputError
from counter.values.money import plain

Rows = Iterable[Mapping[str, Any]]

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
_TABLES = {"stock": "items"}
_TELL_EVERY = 500  # lines between two words on how far it is


def export(ledger: Ledger, kind: str, file: Path, progress: Progress = go_on) -> int:
    """Write a CSV file (UTF-8 with its mark, for spreadsheets); returns its lines. Raises UserError.

    `progress` counts rows; stopping it raises Stopped, and no file is left.
    """
    must_be_new(file, "the export")
    total, lines = len(ledger.rows(_TABLES.get(kind, kind))), list[bytes]()
    for number, line in enumerate(_lines(ledger, kind)):
        if number % _TELL_EVERY == 0:
            mind(progress, number, total, "the export")
        lines.append(_written(line).encode())
    try:
        write_beside(file, [codecs.BOM_UTF8, *lines], disk=Disk())
    except OSError as fault:
        raise why_not(fault, "the export", file) from fault
    return len(lines) - 1


def _lines(ledger: Ledger, kind: str) -> Iterator[list[str]]:
    if kind == "stock":
        yield [column.heading for column in STOCK]
        for row in ledger.rows("items"):
            yield [column.get(row) for column in STOCK]
    elif kind == "purchases":
        yield from _table(_PURCHASE, ledger.rows("purchases"), _purchase)
    elif kind == "sales":
        yield from _table(_SALE, ledger.rows("sales"), _sale)
    else:
        raise InputError(f"{kind} cannot be exported; there are {', '.join(KINDS)}.")


def _table(
    names: tuple[str, ...],
    rows: Rows,
    lines_of: Callable[[Mapping[str, Any]], Iterator[dict[str, Any]]],
) -> Iterator[list[str]]:
    yield [name.replace("_", " ") for name in names]
    for row in rows:
        for line in lines_of(row):
            yield [_cell(line.get(name)) for name in names]


def _purchase(row: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    split = row.get("split") or {}
    shares = split.get("shares") or [{"item": number} for number in row.get("items", ())] or [{}]
    for share in shares:
        yield {
            **row,
            **_foreign(row),
            "total": _money(row.get("total_pence")),
            "premium": _money(row.get("premium_pence")),
            "vat": _money(row.get("vat_pence")),
            "costs": _money(row.get("costs_pence")),
            "item": share.get("item"),
            "share": _money(share.get("pence")),
            "expected": _money(share.get("expected_pence")),
            "basis": split.get("basis"),
            "split_date": split.get("date"),
        }


def _sale(row: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    paid = [
        f"{each['date']} {each['method']} {plain(each['pence'])}" for each in row.get("payments", ())
    ]
    for line in row.get("lines") or [{}]:
        yield {
            **row,
            **_foreign(row),
            "total": _money(row.get("total_pence")),
            "postage": _money(row.get("postage_pence")),
            "discount": _money(row.get("discount_pence")),
            "payments": paid,
            "item": line.get("item"),
            "price": _money(line.get("price_pence")),
            "line_discount": _money(line.get("discount_pence")),
            "scheme": line.get("scheme"),
            "cost": _money(line.get("cost_pence")),
            "vat_fraction": line.get("vat_fraction"),
            "vat": _money(line.get("vat_pence")),
            "words": line.get("words") or row.get("words"),
        }


def _foreign(row: Mapping[str, Any]) -> Mapping[str, Any]:
    return row.get("foreign") or {}


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
