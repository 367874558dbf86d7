"""Every command by name: one line of help and the module that carries it out.

A module has `arguments(parser)`, which adds the command's own words to an ArgumentParser, and
`run(chosen, call) -> Reply`.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Command:
    """A command's name, its help line and its module."""

    name: str
    help: str
    module: str


COMMANDS: tuple[Command, ...] = (
    Command("accounts", "a year, or a day, for the accountant", "counter.cli.accounts"),
    Command("ask", "what it is, what its ink bears, what is in stock", "counter.cli.ask"),
    Command("backup", "the whole ledger in one file, to keep elsewhere", "counter.cli.backup"),
    Command("book", "the stock book of a period, its totals and gaps", "counter.cli.book"),
    Command("buy", "note a purchase in one line", "counter.cli.buy"),
    Command("card", "the card of one issue, each line with its source", "counter.cli.card"),
    Command("close-day", "the day's takings, and what the box should hold", "counter.cli.close_day"),
    Command("compare", "two stamps side by side, and what proves the one", "counter.cli.compare"),
    Command("conflicts", "what two laptops changed both: say which holds", "counter.cli.conflicts"),
    Command(
        "correct", "what was noted wrongly, put right by an entry of its own", "counter.cli.correct"
    ),
    Command("cost", "note a cost beside the stock, by category", "counter.cli.cost"),
    Command("cover", "does the stamp belong to the cover: a finding with reasons", "counter.cli.cover"),
    Command("dilute", "how much water to add to a bottle of peroxide", "counter.cli.dilute"),
    Command("export", "stock, purchases or sales as a CSV file", "counter.cli.export"),
    Command("fair", "a fair noted, and how it went", "counter.cli.fair"),
    Command("filed", "freeze a VAT return as filed; what changed since", "counter.cli.filed"),
    Command("gauge", "the gauge from holes counted over any length", "counter.cli.gauge"),
    Command("house", "your business, limits, rates and factors", "counter.cli.house"),
    Command("import", "a stock list from a CSV file", "counter.cli.import_"),
    Command("invoice", "any paper for a customer or seller: text, PDF, page", "counter.cli.invoice"),
    Command("letters", "where check letters stand, and do they adjoin", "counter.cli.letters"),
    Command("lot", "share a lot's price between its pieces, once", "counter.cli.lot"),
    Command("margin", "margin, VAT and what is left of one sale", "counter.cli.margin"),
    Command("merge", "bring in what was noted on another laptop", "counter.cli.merge"),
    Command("owed", "what is still to be completed about purchases", "counter.cli.owed"),
    Command("people", "who is known; what is held about one; erase on request", "counter.cli.people"),
    Command("price", "what a piece might fetch, and what to offer for it", "counter.cli.price"),
    Command("quote", "keep a quote, find it again", "counter.cli.quote"),
    Command(
        "rate", "what it cost to post, on any day from July 1812 to January 1981", "counter.cli.rate"
    ),
    Command("restore", "put a backup back", "counter.cli.restore"),
    Command("sell", "note a sale", "counter.cli.sell"),
    Command("settle", "a balance, approval, a refund, a reservation ended", "counter.cli.settle"),
    Command("split", "share the price of a lot between its pieces", "counter.cli.split"),
    Command("strength", "a peroxide bottle in every measure, and its hazards", "counter.cli.strength"),
    Command("treat", "may it meet water, peroxide or spirit, and at what risk", "counter.cli.treat"),
    Command("verify", "read everything again and say whether it is sound", "counter.cli.verify"),
)
