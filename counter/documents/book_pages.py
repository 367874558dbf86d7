"""The stock book as a CSV file, as a page to print, and in a few lines for the terminal."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import fields

from counter.csv_files.cells import guard
from counter.documents.accounts_pages import whole_pounds
from counter.documents.layout import Block, Column, Grid, Layout, TextBlock, text_blocks
from counter.reference.money import DEFER
from counter.store.records.shop import Business
from counter.trade.stock_book import BookLine
from counter.trade.stock_book_totals import Totals
from counter.values.dates import day_words, short_day
from counter.values.money import plain, pounds
from counter.values.visible import how_many

#: The columns of the file; sums in pounds.
COLUMNS = tuple(each.name for each in fields(BookLine) if each.name != "gaps")
_PRINTED = (
    Column("Number"),
    Column("Bought"),
    Column("Invoice"),
    Column("Paid", right=True),
    Column("Seller", 4),
    Column("Description", 6),
    Column("Sold"),
    Column("Invoice"),
    Column("Price", right=True),
    Column("Buyer", 2),
    Column("Margin", right=True),
    Column("VAT", right=True),
    Column("Scheme"),
)


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


def book_layout(
    business: Business, since: str, until: str, found: Sequence[BookLine], sums: Totals
) -> Layout:
    """The book of a period as handed to the authority: lines, then the totals; nothing else."""
    title = f"Stock book {day_words(since)} to {day_words(until)}"
    who = "\n".join(filter(None, (business.name, business.address, _vat_number(business))))
    grid = Grid(_PRINTED, tuple(_printed(line) for line in found))
    blocks: list[Block] = [
        *text_blocks(who),
        TextBlock(how_many(len(found), "line")),
        grid,
        TextBlock("Totals", "strong"),
        Grid((Column(""), Column("", right=True)), tuple(total_rows(sums))),
        *text_blocks(*total_remarks(sums)),
    ]
    return Layout(title, tuple(blocks), landscape=True, foot=f"{business.name}  {title}".strip())


def gaps_layout(since: str, until: str, found: Sequence[BookLine]) -> Layout:
    """What is missing in the book of a period, line by line: for the dealer, no part of the book."""
    columns = (Column("Stock no."), Column("Bought"), Column("Sold"), Column("What is missing", 1))
    rows = tuple(
        (
            line.stock_number,
            short_day(line.purchase_date).strip(),
            short_day(line.sale_date).strip(),
            ", ".join(line.gaps),
        )
        for line in found
        if line.gaps
    )
    title = f"To complete in the stock book, {day_words(since)} to {day_words(until)}"
    said = "A sheet for yourself, no part of the book." if rows else "Nothing is missing."
    return Layout(title, (TextBlock(said), *([Grid(columns, rows)] if rows else []), TextBlock(DEFER)))


def _vat_number(business: Business) -> str:
    return business.vat_number and f"VAT number {business.vat_number}"


def _printed(line: BookLine) -> tuple[str, ...]:
    price = line.disposal if line.selling_price is None else _pounds(line.selling_price)
    seller = ", ".join(filter(None, (line.seller_name, *line.seller_address.split("\n"))))
    what = ", ".join(filter(None, (line.disposal, line.refund_of and f"of {line.refund_of}")))
    words = line.description
    if what and line.selling_price is not None:
        words = f"{words} ({what})"
    return (
        line.stock_number,
        short_day(line.purchase_date).strip(),
        line.purchase_invoice_number,
        _pounds(line.purchase_price),
        seller,
        words,
        short_day(line.sale_date).strip(),
        line.sales_invoice_number,
        price,
        line.buyer_name,
        _pounds(line.margin),
        _pounds(line.vat_due),
        line.scheme,
    )


def _pounds(pence: int | None) -> str:
    return "" if pence is None else pounds(pence)


def total_rows(sums: Totals) -> list[tuple[str, str]]:
    """The totals of a period: what each is, and its sum."""
    rows = [
        ("Bought", sums.bought),
        ("Sold", sums.sold),
        ("Profit on margins", sums.profit),
        ("Losses on margins", sums.losses),
    ]
    if not sums.registered:
        return [(words, pounds(pence)) for words, pence in rows]
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
    whole = [("Box 7 (whole pounds)", f"{whole_pounds(sums.box_7):,}")]
    if sums.box_1 is not None and sums.box_6 is not None:
        rows.append(("Box 1", sums.box_1))
        whole.insert(0, ("Box 6 (whole pounds)", f"{whole_pounds(sums.box_6):,}"))
    return [*((words, pounds(pence)) for words, pence in rows), *whole]


def total_remarks(sums: Totals) -> list[str]:
    """What must be said beside the totals."""
    if not sums.registered:
        return ["Not registered for VAT: none is worked out."]
    open_ = sums.box_1 is None or sums.box_6 is None
    said = ["No box 1 or 6: global accounting is worked out for whole VAT periods alone."] * open_
    return [*said, "Of stock only: add overheads and other supplies in your return."]


def total_lines(sums: Totals) -> list[str]:
    """The totals of a period in words."""
    return [*(f"{words:<26}{sum_:>14}" for words, sum_ in total_rows(sums)), *total_remarks(sums)]


def book_text(
    since: str, until: str, found: Sequence[BookLine], sums: Totals, *, costs: bool = True
) -> str:
    """The period in a few lines: totals (with `costs`), then what is missing line by line."""
    totals = total_lines(sums) if costs else ["The totals are for your own eyes: --costs shows them."]
    gaps = [f"  {line.stock_number:<10} {', '.join(line.gaps)}" for line in found if line.gaps]
    head = f"Stock book {since} to {until}: {how_many(len(found), 'line')}"
    missing = [f"Missing on {how_many(len(gaps), 'line')}:", *gaps] if gaps else ["Nothing is missing."]
    return "\n".join([head, *totals, *missing, DEFER])
