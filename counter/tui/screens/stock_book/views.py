"""How a period of the book is drawn: its columns, the chosen line in full, the totals, the gaps."""

from __future__ import annotations

from counter.desk.trade.stock_book import PeriodRead
from counter.documents.book_pages import total_lines
from counter.reference.money import DEFER
from counter.trade.stock_book import BookLine
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.text import Line, fit, two_ends, wrap
from counter.values.dates import short_day
from counter.values.money import pounds

_SUMS = (11, 11, 11, 10)
#: A day and the sign of a refund.
_SOLD = 12
_WIDE = 110
_COVERED = "The totals are for your own eyes: F8 shows them."


def column_heads(width: int, *, costs: bool) -> Line:
    """The names of the columns, over those of `line_spans`; without `costs` none of sums."""
    what = "" if width < _WIDE else " what"
    left: Line = [(f"  {'number':<9}{'bought':<12}{'sold':<{_SOLD}}{what}", "head")]
    sums = _columns("paid", "price", "margin", "VAT") if costs else "F8 shows the sums"
    return two_ends(left, [(sums + " ", "head" if costs else "dim")], width)


def line_spans(line: BookLine, width: int, *, costs: bool) -> Line:
    """One line of the book in columns; the description only where there is room."""
    sold = f"{short_day(line.sale_date):>11}" + ("↩" if line.refund_of else "")
    left: Line = [
        (fit(line.stock_number, 9), "accent"),
        (f"{short_day(line.purchase_date) or '?':>11} ", "plain"),
        (f"{sold:<{_SOLD}}", "plain"),
        (f" {line.description}" if width >= _WIDE - 2 else "", "dim"),
    ]
    gap = ("!" if line.gaps else " ", "care")
    if not costs:
        return two_ends(left, [gap], width)
    price = line.disposal if line.disposal and line.selling_price is None else _sum(line.selling_price)
    sums = [_sum(line.purchase_price), price, _sum(line.margin), _sum(line.vat_due)]
    return two_ends(left, [(_columns(*sums), "plain"), gap], width)


def _columns(*sums: str) -> str:
    """Sums in columns; the VAT on a margin is shorter than the margin."""
    return "".join(f"{each:>{wide}}" for each, wide in zip(sums, _SUMS, strict=True))


def _sum(pence: int | None) -> str:
    return "–" if pence is None else pounds(pence)


def line_in_full(line: BookLine | None, width: int, *, costs: bool) -> list[Line]:
    """What stands in the book beside the columns; without `costs` not of whom and to whom."""
    if line is None:
        return []
    seller = ", ".join(filter(None, (line.seller_name, line.seller_address, line.seller_vat_status)))
    papers = [f"from {seller or 'nobody noted'}"]
    papers += [f"invoice {line.purchase_invoice_number}"] if line.purchase_invoice_number else []
    papers += [f"paid by {line.payment_method}"] if line.payment_method else []
    papers += [f"lot {line.lot_reference}"] if line.lot_reference else []
    sold = [f"sold to {line.buyer_name or 'nobody noted'}"] if line.sale_date else []
    sold += [f"invoice {line.sales_invoice_number}"] if line.sales_invoice_number else []
    sold += [f"refund of {line.refund_of}"] if line.refund_of else []
    sold += [f"{line.scheme} scheme"] if line.scheme else []
    sold += [line.currency_and_rate] if line.currency_and_rate else []
    lines = prose(line.description, width, "strong")[:1]
    if costs:
        lines += prose("; ".join(papers), width)
        lines += prose("; ".join(sold), width) if sold else []
    if line.gaps:
        lines += prose(f"Missing: {', '.join(line.gaps)}.", width, "care", head=("! ", "care"))
    return lines


def totals_in_full(read: PeriodRead, width: int, *, costs: bool) -> list[Line]:
    """The totals for the return (with `costs`), what is missing, whom to ask."""
    lines: list[Line] = [[]]
    for row in total_lines(read.sums) if costs else (_COVERED,):
        ink = "strong" if row.startswith("Box") else "plain"
        lines += [[("  " + part, ink)] for part in wrap(row, width - 4)]
    lines.append([])
    if read.warned:
        lines += prose(read.warned, width, "care", head=("! ", "care"))
    count = len(read.gaps)
    if count:
        told = f"Something is missing on {count} of {len(read.lines)} lines: Tab shows them."
        lines += prose(told, width, "care", head=("! ", "care"))
    else:
        lines += prose("Nothing is missing.", width, "good")
    return [*lines, *prose(DEFER, width, "dim")]


def gap_spans(line: BookLine, width: int, *, costs: bool) -> Line:
    """A line with something missing: what it is."""
    left: Line = [
        (fit(line.stock_number, 9), "accent"),
        (f"{short_day(line.purchase_date) or '?':>11}  ", "plain"),
        (", ".join(line.gaps), "care"),
    ]
    paid = f" {_sum(line.purchase_price)} " if costs else ""
    return two_ends(left, [(paid, "price")], width)
