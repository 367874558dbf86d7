"""`counter book --from DATE --to DATE`: the stock book of a period, its totals and what is missing."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import as_json
from counter.desk.trade.stock_book import read_book
from counter.documents.accounts_pages import boxes_csv
from counter.documents.book_pages import book_text
from counter.documents.write_file import write_whole
from counter.documents.write_layout import write_layout
from counter.reference.money import DEFER
from counter.values.date_words import day_of_words
from counter.values.days import read_period
from counter.values.paths import path_of


def arguments(parser: ArgumentParser) -> None:
    """The first and last day; files to write."""
    parser.add_argument("--from", dest="since", required=True, metavar="DATE", help="first day")
    parser.add_argument("--to", dest="until", required=True, metavar="DATE", help="last day")
    parser.add_argument("--csv", metavar="FILE", help="write every line as a CSV file")
    parser.add_argument("--boxes", metavar="FILE", help="write the nine boxes as a CSV file")
    parser.add_argument("--page", metavar="FILE", help="write it to print: FILE.pdf or FILE.html")
    parser.add_argument(
        "--gaps", metavar="FILE", help="write what is missing, on a sheet of its own: .pdf or .html"
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{since, until, lines, totals, missing, cautions}; sums in pence."""
    since, until = read_period(day_of_words(chosen.since), day_of_words(chosen.until))
    read = read_book(call.desk.trading, since, until)
    if chosen.csv:
        write_whole(path_of(chosen.csv), read.csv())
    if chosen.boxes:
        write_whole(path_of(chosen.boxes), boxes_csv(since, until, read.sums))
    if chosen.page:
        write_layout(path_of(chosen.page), read.layout())
    if chosen.gaps:
        write_layout(path_of(chosen.gaps), read.gaps_layout())
    data = {
        "since": since,
        "until": until,
        "lines": as_json(read.lines),
        "totals": as_json(read.sums),
        "missing": {each.stock_number: list(each.gaps) for each in read.gaps},
        "cautions": [each for each in (read.warned, DEFER) if each],
    }
    written = [
        f"Written: {each}" for each in (chosen.csv, chosen.boxes, chosen.page, chosen.gaps) if each
    ]
    text = [book_text(since, until, read.lines, read.sums, costs=call.costs), read.warned, *written]
    return Reply(data, "\n".join(filter(None, text)))
