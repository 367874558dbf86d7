"""`counter invoice NUMBER [--page FILE]`: any paper that leaves the table, as text, PDF or page."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict

from counter.cli.call import Call, Reply
from counter.desk.trade.invoices import paper_of
from counter.documents.write_layout import write_layout
from counter.reference.money import DEFER
from counter.values.paths import path_of


def arguments(parser: ArgumentParser) -> None:
    """The number of what the paper is of."""
    parser.add_argument(
        "number",
        metavar="NUMBER",
        help="of a sale (invoice, credit note, deposit, approval), a purchase, a quote, or a person "
        "(what they owe)",
    )
    parser.add_argument("--page", metavar="FILE", help="write it to print: FILE.pdf or FILE.html")
    parser.add_argument("--roll", action="store_true", help="on a roll of 80 mm instead of A4")


def run(chosen: Namespace, call: Call) -> Reply:
    """The paper's parts as printed, and `missing`: what the law asks for and is not known."""
    paper = paper_of(call.desk.trading, chosen.number)
    if chosen.page:
        write_layout(path_of(chosen.page), paper.layout(roll=chosen.roll))
    data = asdict(paper) | {"caution": DEFER}
    missing = [f"(Missing: {', '.join(paper.missing)}.)"] if paper.missing else []
    written = [f"(Written: {chosen.page})"] if chosen.page else []
    return Reply(data, "\n".join([paper.text(), "", *missing, *written, f"({DEFER})"]))
