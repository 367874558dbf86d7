"""`counter people`: who is known; what is held about one; details completed; a person erased."""

from __future__ import annotations

import json
from argparse import ArgumentParser, Namespace
from dataclasses import asdict

from counter.cli.call import Call, Reply
from counter.cli.deals import MANY, pairs
from counter.desk.trade.people import erasure_words, note_details, until_words
from counter.desk.trade.trading import Trading
from counter.documents.person_page import person_page, record_lines
from counter.documents.write_file import write_whole
from counter.documents.write_layout import write_layout
from counter.trade.people import join_people
from counter.trade.personal_data import erase_person, held_about
from counter.values.paths import path_of
from counter.values.record import write_row
from counter.values.visible import how_many


def arguments(parser: ArgumentParser) -> None:
    """One person by number, and what to do."""
    parser.add_argument("person", nargs="?", metavar="PERSON", help="number of a person")
    parser.add_argument(
        "--set",
        **MANY,
        metavar="NAME=VALUE",
        help="name, address, kind, vat_number...",
    )
    parser.add_argument("--export", metavar="FILE", help="everything held about the person (JSON)")
    parser.add_argument("--page", metavar="FILE", help="the whole record as a page to print (HTML)")
    parser.add_argument("--join", metavar="PERSON", help="another record that is the same person")
    parser.add_argument("--erase", action="store_true", help="forget the person as far as the law lets")


def run(chosen: Namespace, call: Call) -> Reply:
    """{people: [...]}, or one person's rows, or what was erased, kept, until when and why."""
    trading = call.desk.trading
    ledger = trading.ledger
    if not chosen.person:
        people = [each for each in ledger.people.records() if not each.joined]
        rows = [write_row(each) for each in people]
        lines = [f"{each.id:<8}{each.name or '(erased)'}" for each in people]
        return Reply({"people": rows}, "\n".join(lines) or "Nobody is noted.")
    if chosen.erase:
        return _erase(chosen.person, trading)
    if chosen.join:
        whole_person = join_people(ledger, chosen.person, chosen.join)
        said = f"{chosen.join} is {whole_person.id} now, with every deal."
        return Reply(write_row(whole_person), said)
    if chosen.set:
        details = pairs(chosen.set, "address=1 High Street")
        done = note_details(trading, chosen.person, details)
        return Reply(write_row(done), f"{done.id} is completed.")
    held = held_about(trading.settings, chosen.person)
    whole = json.dumps(held, ensure_ascii=False, indent=2)
    if chosen.export:
        write_whole(path_of(chosen.export), whole)
        return Reply(held, f"Everything held about {chosen.person} is in {chosen.export}.")
    if chosen.page:
        until = until_words(held["kept_until"]) if held["kept_until"] else ""
        write_layout(path_of(chosen.page), person_page(held, until))
        return Reply(held, f"Written: {chosen.page}")
    if call.costs:
        return Reply(held, "\n".join(record_lines(held)))
    counts = ", ".join(
        how_many(len(held[name]), name[:-1]) for name in ("purchases", "sales", "quotes")
    )
    lines = [f"{name.replace('_', ' '):<12}{value}" for name, value in held["person"].items() if value]
    return Reply(held, "\n".join([*lines, f"{counts}; --costs shows them whole."]))


def _erase(key: str, trading: Trading) -> Reply:
    done = erase_person(trading.settings, key, trading.today)
    return Reply(asdict(done), "\n".join(erasure_words(done)))
