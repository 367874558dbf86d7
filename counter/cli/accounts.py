"""`counter accounts "tax 2025" [--folder DIR]`, `counter accounts --on DATE`: for the accountant."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import as_json
from counter.desk.trade.accounts import accounts_on, write_files, year_and_end
from counter.documents.accounts_pages import standing_files, standing_text, year_text
from counter.values.date_words import day_of_words
from counter.values.errors import InputError
from counter.values.paths import path_of

#: What stands where the dealer's own is left out.
COVERED = "The sums are for your own eyes: --costs shows them."


def arguments(parser: ArgumentParser) -> None:
    """A period, or one day; a folder for the files."""
    parser.add_argument(
        "period",
        nargs="*",
        metavar="PERIOD",
        help="2026, tax 2025, q2 2026; the VAT period if left out",
    )
    parser.add_argument("--on", metavar="DATE", help="only what there was at the end of a day")
    parser.add_argument("--folder", metavar="DIR", help="a folder to write the CSV files into")


def run(chosen: Namespace, call: Call) -> Reply:
    """{year, standing}: profit by scheme, VAT periods, own use; stock and claims at its end; pence."""
    trading = call.desk.trading
    words = " ".join(chosen.period)
    if chosen.on and words:
        raise InputError("Say a period, or one day with --on, not both.")
    if chosen.on:
        there = accounts_on(trading, day_of_words(chosen.on))
        data, text, files = {"standing": as_json(there)}, standing_text(there), standing_files(there)
    else:
        year, there, files = year_and_end(trading, words)
        data = {
            "year": as_json(year) | {"gross": year.gross, "net": year.net, "box_1": year.box("box_1")},
            "standing": as_json(there) | {"stock_cost": there.stock_cost},
        }
        text = f"{year_text(year)}\n\n{standing_text(there)}"
    written = write_files(path_of(chosen.folder), files) if chosen.folder else []
    said = [text if call.costs else COVERED, *(f"Written: {each}" for each in written)]
    return Reply(data | {"files": [str(each) for each in written]}, "\n".join(said))
