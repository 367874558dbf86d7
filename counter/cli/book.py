"""`counter book --from DATE --to DATE`: the stock book of a period, its totals and what is missing."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path

from counter.cli.call import Call, Reply
from counter.cli.deals import as_json, open_dealing
from counter.ledger.book_totals import registration_warning, totals
from counter.ledger.papers.book_pages import book_csv, book_page, book_text
from counter.ledger.papers.page import write_page
from counter.reference.money import DEFER
from counter.values.days import read_period


def arguments(parser: ArgumentParser) -> None:
    """The first and last day; files to write."""
    parser.add_argument("--from", dest="since", required=True, metavar="DATE")
    parser.add_argument("--to", dest="until", required=True, metavar="DATE")
    parser.add_argument("--csv", metavar="FILE", help="write every line as a CSV file")
    parser.add_argument("--page", metavar="FILE", help="write a page to print (HTML)")


def run(chosen: Namespace, call: Call) -> Reply:
    """{since, until, lines, totals, missing, cautions}; sums in pence."""
    since, until = read_period(chosen.since, chosen.until)
    with open_dealing(call) as dealing:
        book = dealing.book
        lines = book.lines(since, until)
        sums = totals(book, since, until, lines)
        warned = registration_warning(book, until)
        business = dealing.house.business
    if chosen.csv:
        write_page(Path(chosen.csv).expanduser(), book_csv(lines))
    if chosen.page:
        write_page(Path(chosen.page).expanduser(), book_page(business, since, until, lines, sums))
    data = {
        "since": since,
        "until": until,
        "lines": as_json(lines),
        "totals": as_json(sums),
        "missing": {each.stock_number: list(each.gaps) for each in lines if each.gaps},
        "cautions": [each for each in (warned, DEFER) if each],
    }
    written = [f"Written: {each}" for each in (chosen.csv, chosen.page) if each]
    text = [book_text(since, until, lines, sums), *([warned] if warned else []), *written]
    return Reply(data, "\n".join(text))
