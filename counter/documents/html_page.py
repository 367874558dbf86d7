"""A page to print: one self-contained HTML file, black on white, nothing fetched from anywhere.

Every text is escaped: what a person typed is shown as typed.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

_STYLE = (
    "body{font:11pt serif;margin:2em;color:#000;background:#fff}"
    "table{border-collapse:collapse;width:100%;margin:1em 0}"
    "th,td{border:1px solid #777;padding:.25em .4em;text-align:left;vertical-align:top}"
    ".sum{text-align:right;white-space:nowrap}pre{font:inherit;white-space:pre-wrap}"
    "@media print{body{margin:0}tr{page-break-inside:avoid}}"
)


def page(title: str, parts: Sequence[str]) -> str:
    """A whole page of finished parts under a title."""
    head = f'<meta charset="utf-8"><title>{escape(title)}</title><style>{_STYLE}</style>'
    body = "\n".join((f"<h1>{escape(title)}</h1>", *parts))
    return f'<!doctype html>\n<html lang="en-GB"><head>{head}</head>\n<body>\n{body}\n</body></html>\n'


def lines(text: str) -> str:
    """Text with its own line breaks."""
    return f"<pre>{escape(text)}</pre>"


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], sums: Sequence[int] = ()) -> str:
    """A table of text cells; the columns in `sums` are set right."""
    top = "".join(f"<th>{escape(each)}</th>" for each in heads)
    body = "\n".join(
        f"<tr>{''.join(_cell(place, cell, sums) for place, cell in enumerate(row))}</tr>"
        for row in rows
    )
    return f"<table><thead><tr>{top}</tr></thead>\n<tbody>\n{body}\n</tbody></table>"


def _cell(place: int, text: str, sums: Sequence[int]) -> str:
    way = ' class="sum"' if place in sums else ""
    return f"<td{way}>{escape(text)}</td>"
