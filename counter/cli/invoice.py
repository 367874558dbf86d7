"""`counter invoice SALE|PURCHASE [--page FILE]`: the paper, as text or as a page to print."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict

from counter.cli.call import Call, Reply
from counter.desk.trade.invoices import paper_of
from counter.documents.write_file import write_whole
from counter.reference.money import DEFER
from counter.values.paths import path_of


def arguments(parser: ArgumentParser) -> None:
    """The number of a sale or of a purchase."""
    parser.add_argument("number", metavar="NUMBER", help="of a sale, or of a purchase from the public")
    parser.add_argument("--page", metavar="FILE", help="write a page to print (HTML)")


def run(chosen: Namespace, call: Call) -> Reply:
    """The paper's parts as printed, and `missing`: what the law asks for and is not known."""
    paper = paper_of(call.desk.trading, chosen.number)
    if chosen.page:
        write_whole(path_of(chosen.page), paper.html())
    data = asdict(paper) | {"caution": DEFER}
    missing = [f"(Missing: {', '.join(paper.missing)}.)"] if paper.missing else []
    written = [f"(Written: {chosen.page})"] if chosen.page else []
    return Reply(data, "\n".join([paper.text(), "", *missing, *written, f"({DEFER})"]))
