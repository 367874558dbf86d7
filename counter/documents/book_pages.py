"""The stock book as a CSV file, as a page to print, and in a few lines for the terminal."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import fields

from counter.csv_files.cells import guard
from counter.documents.accounts_pages import whole_pounds
from counter.documents.html_page import lines as text_lines
from counter.documents.html_page import page, table
from counter.reference.money import DEFER
from counter.store.records.shop import Business
from counter.trade.stock_book import BookLine
from counter.trade.stock_book_totals import Totals
from counter.values.money import plain, pounds
from counter.values.visible import how_many

#: The columns of the file; sums in pounds.
COLUMNS = tuple(each.name for each in fields(BookLine) if each.name != "gaps")
_PRINTED = {
    "stock_number": "Stock no.",
    "purchase_date": "Bought",
    "purchase_invoice_number": "Invoice",
    "purchase_price": "Paid",
    "seller_name": "Seller",
    "description": "Description",
    "sale_date": "Sold",
    "sales_invoice_number": "Invoice",
    "selling_price": "Price",
    "buyer_name": "Buyer",
    "margin": "Margin",
    "vat_due": "VAT due",
    "scheme": "Scheme",
}
_SUMS = ("purchase_price", "selling_price", "margin", "vat_due")


def book_csv(found: Sequence[BookLine]) -> str:
    """Every line of the book as CSV text (RFC 4180); no cell runs as a formula."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([*COLUMNS, "missing"])
    for line in found:
        cells = [guard(_cell(line, name)) for name in COLUMNS]
        writer.writerow([*cells, guard("; ".join(line.gaps))])
    return out.getvalue()


def _cell(line: BookLine, name: str) -> str:
    value = getattr(line, name)
    if value is None:
        return ""
    return plain(value) if isinstance(value, int) else str(value)


def book_page(
    business: Business, since: str, until: str, found: Sequence[BookLine], sums: Totals
) -> str:
    """The book of a period as a page to print: lines, totals, what is missing."""
    names = list(_PRINTED)
    rows = [
        [
            line.disposal or _cell(line, name) if name == "selling_price" else _cell(line, name)
            for name in names
        ]
        for line in found
    ]
    missing = [f"{line.stock_number}: {', '.join(line.gaps)}" for line in found if line.gaps]
    who = "\n".join(filter(None, (business.name, business.address, business.vat_number)))
    return page(
        f"Stock book {since} to {until}",
        [
            text_lines(who),
            table(list(_PRINTED.values()), rows, [names.index(name) for name in _SUMS]),
            text_lines("\n".join(total_lines(sums))),
            text_lines("Missing:\n" + "\n".join(missing) if missing else "Nothing is missing."),
            text_lines(DEFER),
        ],
    )


def total_lines(sums: Totals) -> list[str]:
    """The totals of a period in words."""
    rows = [
        ("Bought", sums.bought),
        ("Sold", sums.sold),
        ("Profit on margins", sums.profit),
        ("Losses on margins", sums.losses),
    ]
    if not sums.registered:
        return [*_rows(rows), "Not registered for VAT: none is worked out."]
    rows += [
        ("VAT on margins", sums.vat_on_margins),
        ("VAT on full prices", sums.vat_on_full_prices),
    ]
    if sums.pool:
        pool = sums.pool
        rows += [
            ("Global: purchases", pool.purchases),
            ("Global: taken out", pool.removed),
            ("Global: sales", pool.sales),
            *([("Global: stock given back on leaving", pool.closing)] if pool.closing else []),
            ("Global: brought forward", pool.brought_forward),
            ("Global: VAT", pool.worked.vat),
            ("Global: carried forward", pool.worked.carried_forward),
        ]
    rows += [("VAT shown on stock bought", sums.input_vat)]
    whole = [f"{'Box 7 (whole pounds)':<26}{whole_pounds(sums.box_7):>14,}"]
    if sums.box_1 is None or sums.box_6 is None:
        whole.append("No box 1 or 6: global accounting is worked out for whole VAT periods alone.")
    else:
        rows.append(("Box 1", sums.box_1))
        whole.insert(0, f"{'Box 6 (whole pounds)':<26}{whole_pounds(sums.box_6):>14,}")
    return [*_rows(rows), *whole, "Of stock only: add overheads and other supplies in your return."]


def _rows(rows: Sequence[tuple[str, int]]) -> list[str]:
    return [f"{words:<26}{pounds(pence):>14}" for words, pence in rows]


def book_text(
    since: str, until: str, found: Sequence[BookLine], sums: Totals, *, costs: bool = True
) -> str:
    """The period in a few lines: totals (with `costs`), then what is missing line by line."""
    totals = total_lines(sums) if costs else ["The totals are for your own eyes: --costs shows them."]
    gaps = [f"  {line.stock_number:<10} {', '.join(line.gaps)}" for line in found if line.gaps]
    head = f"Stock book {since} to {until}: {how_many(len(found), 'line')}"
    missing = [f"Missing on {how_many(len(gaps), 'line')}:", *gaps] if gaps else ["Nothing is missing."]
    return "\n".join([head, *totals, *missing, DEFER])
