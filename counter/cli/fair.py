"""`counter fair "Ludmere" --take WK-1 WK-2`, `counter fair WK-F1`: a fair noted, and how it went."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Iterator

from counter.cli.accounts import COVERED
from counter.cli.call import Call, Reply
from counter.cli.deals import MANY, as_json, day_of
from counter.trade.fairs import FairRead, note_fair, read_fair
from counter.values.date_words import day_of_words
from counter.values.dates import day_words
from counter.values.money import pounds
from counter.values.record import write_row
from counter.values.visible import how_many


def arguments(parser: ArgumentParser) -> None:
    """A fair's number to read it, or its name to note it."""
    parser.add_argument("fair", nargs="?", metavar="NUMBER|NAME", help="none: every fair")
    parser.add_argument("--from", dest="since", metavar="DATE", help="its first day; today if left out")
    parser.add_argument("--to", dest="until", metavar="DATE", help="its last day")
    parser.add_argument("--take", **MANY, default=[], metavar="NUMBER", help="stock taken there")


def run(chosen: Namespace, call: Call) -> Reply:
    """{fairs: [...]}, the fair noted, or one read: takings by hour, costs, what sold; pence."""
    trading = call.desk.trading
    fairs = trading.ledger.accounts.fairs
    if not chosen.fair:
        every = fairs.records()
        lines = [f"{each.id:<8}{day_words(each.since)}  {each.name}" for each in every]
        return Reply(
            {"fairs": [write_row(each) for each in every]}, "\n".join(lines) or "No fair is noted."
        )
    known = fairs.find(chosen.fair.upper())
    if known and not chosen.take:
        read = read_fair(trading.book, known)
        text = "\n".join(_lines(read)) if call.costs else COVERED
        return Reply(as_json(read) | {"net": read.net}, text)
    since = day_of(chosen.since, trading)
    until = day_of_words(chosen.until) if chosen.until else since
    taken = [each.upper() for each in chosen.take]
    fair = note_fair(trading.settings, chosen.fair, since, until, taken)
    return Reply(
        write_row(fair), f"Noted as {fair.id}: {fair.name}, {how_many(len(fair.taken), 'piece')}."
    )


def _lines(read: FairRead) -> Iterator[str]:
    """How a fair went, what is not noted yet standing first."""
    for number, pence in read.unnoted:
        yield f"Payment not noted: {number}, {pounds(pence)}"
    yield f"{read.fair.name}, {day_words(read.fair.since)}"
    for hour, ways in read.hours.items():
        taken = ", ".join(f"{way} {pounds(pence)}" for way, pence in ways.items())
        yield f"  {hour + ':00' if hour else 'noted later'}  {taken}"
    for way, pence in read.takings.items():
        yield f"Taken by {way} {pounds(pence)}"
    for category, pence in read.costs.items():
        yield f"Cost, {category} {pounds(pence)}"
    yield f"Profit on what was sold {pounds(read.profit)}, after the costs {pounds(read.net)}"
    yield f"Of {how_many(len(read.fair.taken), 'piece')} taken, {len(read.sold)} sold"
    for number, pence in (*read.sold, *read.others):
        yield f"  {number:<10}{pounds(pence)}"
    if read.before:
        yield "Last time:"
        yield from (f"  {each}" for each in _lines(read.before))
