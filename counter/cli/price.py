"""`counter price STOCKNUMBER`: what it might fetch by own sales, and what to offer for it."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from dataclasses import dataclass

from msgspec.structs import replace

from counter.cli.call import Call, Reply, wrapped
from counter.cli.deals import as_json, judged_lines, price_judged
from counter.describe.description import short_line
from counter.desk.stock.item_from_text import read_piece
from counter.desk.trade.pricing import read_wanted
from counter.desk.trade.trading import Trading
from counter.judge.observation import Reading
from counter.judge.price.comparables import Comparable
from counter.judge.price.multiples import BothWays
from counter.judge.price.price_chart import LEGEND
from counter.judge.price.suggestion import Suggestion
from counter.trade.vat_scheme import floor_price
from counter.values.errors import InputError
from counter.values.item import Item
from counter.values.money import half_up, pounds, read_pence
from counter.values.vat import Margin

#: What is meant for a stock number, whether there is one or not.
_NUMBER = re.compile(r"[a-z]{1,3}-[0-9]+", re.IGNORECASE)
#: What a customer may read: cautions that begin so name no figure.
FOR_ALL = ("A certificate", "Not priced")
OWN_EYES = "What it might fetch is for your own eyes: --costs shows it."


def arguments(parser: ArgumentParser) -> None:
    """A stock number, or the words of a piece in the hand; the wanted profit for an offer."""
    parser.add_argument("piece", nargs="+", metavar="NUMBER|WORDS")
    parser.add_argument(
        "--profit", metavar="SUM|20%", help="wanted profit, in pounds or of what it sells for"
    )
    parser.add_argument("--at", metavar="SUM", help="what is left after VAT if it sells at this")
    parser.add_argument("--cost", metavar="SUM", help="what it cost, where it is not in stock")
    parser.add_argument("--resale", metavar="SUM", help="offer for this expected resale instead")


def run(chosen: Namespace, call: Call) -> Reply:
    """{suggestion: pence or null, low, high, count, effective, comparables, others, offer, both_ways,
    left, floor, cost_code, judgement}. What is the dealer's own is printed with --costs alone."""
    trading = call.desk.trading
    item, reading = _piece(chosen, call)
    profit = read_wanted(chosen.profit) if chosen.profit else None
    priced = trading.priced(item, reading)
    made = priced.made
    resale = read_pence(chosen.resale, "the resale") if chosen.resale else made.marked
    wanted = trading.offer(resale, profit) if resale is not None else None
    cost = read_pence(chosen.cost, "the cost") if chosen.cost else item.cost
    at = read_pence(chosen.at, "the price") if chosen.at else None
    left = trading.left(item, cost, at) if at is not None and cost is not None else None
    own = Own(trading, item, cost, at, left)
    data = _data(made) | {"asking": item.asking, "both_ways": _ways(priced.ways)}
    data |= {"offer": wanted and as_json(wanted), **own.data}
    what = f"{item.number}  {short_line(item, trading.names)}".strip()
    if not call.costs:
        hidden = [f"Mind: {each}" for each in made.judgement.cautions if each.startswith(FOR_ALL)]
        return Reply(data, "\n".join([what, *map(wrapped, hidden), OWN_EYES]))
    drawn = trading.picture(item, made).rows(78)
    text = [what, *judged_lines(made.judgement), *drawn]
    text += [LEGEND] if drawn else []
    text += [_line(each) for each in made.comparables]
    text += ["Other things, which do not price it:"] if made.others else []
    text += [_line(each) for each in made.others[:12]]
    text += [wrapped(priced.ways.words)] if priced.ways else []
    text += own.lines
    text += judged_lines(wanted.judgement) if wanted else []
    return Reply(data, "\n".join(text))


def _piece(chosen: Namespace, call: Call) -> tuple[Item, Reading | None]:
    """A piece of the stock, or the one of the words in hand with its reading. Raises InputError."""
    words = " ".join(chosen.piece)
    item = call.desk.item(words.strip().upper())
    if item is not None:
        return item, None
    if _NUMBER.fullmatch(words.strip()):
        raise InputError(f"There is no stock number {words}.")
    read = read_piece(words, call.library)
    if not read.reading.observations:
        raise InputError(f"{words!r} is no stock number, and nothing of a stamp can be read in it.")
    return read.item, read.reading


@dataclass(frozen=True, slots=True)
class Own:
    """The dealer's own figures of a piece: its floor, its cost in the code, what a price leaves."""

    trading: Trading
    item: Item
    cost: int | None
    at: int | None
    left: Margin | None

    @property
    def floor(self) -> int | None:
        """The least price by cost, VAT and least profit."""
        terms = self.trading.settings.on(self.trading.today)
        return floor_price(terms, replace(self.item, cost=self.cost))

    @property
    def code(self) -> str:
        """The cost in the dealer's letters; "" without letters or cost."""
        return "" if self.cost is None else self.trading.cost_code(self.cost)

    @property
    def data(self) -> dict[str, object]:
        """As plain JSON values."""
        return {"floor": self.floor, "cost_code": self.code, "at": self.at, "left": as_json(self.left)}

    @property
    def lines(self) -> list[str]:
        """In words, one a line."""
        said = []
        if self.floor is not None:
            said.append(f"Your floor is {pounds(self.floor)}: cost, VAT and least profit.")
        if self.code:
            said.append(f"Cost code {self.code}.")
        if self.left and self.at is not None:
            vat = f"{pounds(self.left.vat)} VAT off, " if self.left.vat else ""
            said.append(f"Sold at {pounds(self.at)}: {vat}{pounds(self.left.net)} left.")
        return said


def _ways(ways: BothWays | None) -> dict[str, object] | None:
    if ways is None:
        return None
    parts = [{"piece": part.words, "suggestion": part.made.price} for part in ways.parts]
    return {"worst": ways.worst, "as_it_is": ways.whole, "parts": parts, "parted": ways.parted}


def _data(made: Suggestion) -> dict[str, object]:
    return {
        "suggestion": made.price,
        "marked": made.marked,
        "low": made.low,
        "high": made.high,
        "range_holds": made.holds,
        "range_of": made.of,
        "claim": None if made.claim is None else str(made.claim),
        "count": made.count,
        "effective": round(float(made.effective), 2),
        "flagged": made.flagged,
        "oldest": made.days[0],
        "newest": made.days[1],
        "not_priced": list(made.not_priced),
        "certificate_first": [text for text, _ in made.stops],
        "basis": made.basis,
        "condition_factor": str(made.condition.factor),
        "comparables": [_comparable(each) for each in made.comparables],
        "others": [_comparable(each) for each in made.others],
        "judgement": price_judged(made.judgement),
    }


def _comparable(each: Comparable) -> dict[str, object]:
    return {
        "number": each.evidence.number,
        "kind": each.evidence.kind,
        "date": each.evidence.day,
        "price": each.evidence.price,
        "adjusted": half_up(each.adjusted),
        "likeness": round(float(each.likeness), 3),
        "weight": round(float(each.weight), 3),
        "flagged": each.flagged,
        "differences": list(each.differences),
    }


def _line(each: Comparable) -> str:
    evidence, mark = each.evidence, "!" if each.flagged else " "
    sums = f"{pounds(evidence.price):>11} -> {pounds(half_up(each.adjusted)):>11}"
    said = f"weight {float(each.weight):.2f}  {', '.join(each.differences)}".rstrip()
    return f"{mark} {evidence.number:<9} {evidence.day} {evidence.kind:<7}{sums}  {said}"
