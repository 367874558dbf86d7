"""A page to print: one self-contained HTML file, black on white, nothing fetched from anywhere.

Every text is escaped: what a person typed is shown as typed.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from counter.documents.layout import Block, Column, Grid, Layout, NewSheet, TextBlock, TwoBlocks

_STYLE = (
    "body{font:11pt serif;margin:2em;color:#000;background:#fff}"
    "table{border-collapse:collapse;width:100%;margin:1em 0}"
    "th,td{border-bottom:1px solid #777;padding:.25em .4em;text-align:left;vertical-align:top}"
    ".sum{text-align:right}.whole{white-space:nowrap}tfoot td{font-weight:bold}"
    "tfoot{display:table-row-group}pre{font:inherit;white-space:pre-wrap}"
    ".strong{font-weight:bold}.small{font-size:85%}.stamp{font-weight:bold;font-size:140%}"
    ".two{display:flex;gap:3em}.two pre{flex:1}.sheet{break-before:page}"
    "@page{size:A4;margin:15mm;@bottom-right{content:counter(page) ' / ' counter(pages);font-size:8pt}}"
    "@media print{body{margin:0}tr{break-inside:avoid}}"
)
_ACROSS = "@page{size:A4 landscape;margin:12mm}body{font:8pt sans-serif}"


def page(title: str, parts: Sequence[str], style: str = "") -> str:
    """A whole page of finished parts under a title."""
    head = f'<meta charset="utf-8"><title>{escape(title)}</title><style>{_STYLE}{style}</style>'
    body = "\n".join((f"<h1>{escape(title)}</h1>", *parts))
    return f'<!doctype html>\n<html lang="en-GB"><head>{head}</head>\n<body>\n{body}\n</body></html>\n'


def html_of(layout: Layout) -> str:
    """A paper as a page to print."""
    return page(layout.title, [_block(each) for each in layout.blocks], _ACROSS * layout.landscape)


def lines(text: str, way: str = "plain") -> str:
    """Text with its own line breaks."""
    return (
        f"<pre>{escape(text)}</pre>" if way == "plain" else f'<pre class="{way}">{escape(text)}</pre>'
    )


def _block(block: Block) -> str:
    match block:
        case TextBlock(text, style):
            return lines(text, style)
        case TwoBlocks(left, right):
            return f'<div class="two">{lines(left)}{lines(right)}</div>'
        case NewSheet(title):
            return f'<h1 class="sheet">{escape(title)}</h1>'
        case Grid(columns, rows, totals):
            return _grid(columns, rows, totals)


def _grid(
    columns: Sequence[Column], rows: Sequence[Sequence[str]], totals: Sequence[Sequence[str]]
) -> str:
    heads = "".join(f"<th{_way(each)}>{escape(each.head)}</th>" for each in columns)
    foot = f"<tfoot>{_rows(columns, totals)}</tfoot>" if totals else ""
    body = f"<tbody>\n{_rows(columns, rows)}\n</tbody>"
    return f"<table><thead><tr>{heads}</tr></thead>\n{body}{foot}</table>"


def _rows(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> str:
    return "\n".join(
        "<tr>"
        + "".join(
            f"<td{_way(column)}>{escape(cell).replace(chr(10), '<br>')}</td>"
            for column, cell in zip(columns, row, strict=True)
        )
        + "</tr>"
        for row in rows
    )


def _way(column: Column) -> str:
    names = " ".join(["sum"] * column.right + ["whole"] * (not column.share))
    return f' class="{names}"' if names else ""
