"""`counter price STOCKNUMBER`: what it might fetch by own sales, and what to offer for it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply
from counter.cli.deals import as_json, judged, judged_lines
from counter.describe.description import short_line
from counter.desk.stock.item_from_text import read_piece
from counter.judge.price.comparables import Comparable
from counter.judge.price.price_chart import LEGEND
from counter.judge.price.suggestion import Suggestion
from counter.trade.vat_scheme import floor_price
from counter.values.errors import InputError
from counter.values.money import half_up, pounds, read_pence


def arguments(parser: ArgumentParser) -> None:
    """A stock number, or the words of a piece in the hand; the wanted profit for an offer."""
    parser.add_argument("piece", nargs="+", metavar="NUMBER|WORDS")
    parser.add_argument("--profit", metavar="SUM", help="wanted profit; the house's share if left out")
    parser.add_argument("--resale", metavar="SUM", help="offer for this expected resale instead")


def run(chosen: Namespace, call: Call) -> Reply:
    """{suggestion: pence or null, low, high, count, effective, comparables, offer, judgement}."""
    words = " ".join(chosen.piece)
    profit = read_pence(chosen.profit, "the profit") if chosen.profit else None
    trading = call.desk.trading
    item = trading.workspace.item(words.strip().upper())
    if item is None and len(chosen.piece) == 1 and "-" in words:
        raise InputError(f"There is no stock number {words}.")
    reading = None
    if item is None:
        read = read_piece(words, call.library)
        if not read.reading.observations:
            raise InputError(f"{words!r} is no stock number, and nothing of a stamp can be read in it.")
        item, reading = read.item, read.reading
    made = trading.price(item, reading)
    resale = read_pence(chosen.resale, "the resale") if chosen.resale else made.marked
    wanted = trading.offer(resale, profit) if resale is not None else None
    drawn = trading.picture(item, made).rows(78)
    what = short_line(item, trading.names)
    floor = floor_price(trading.house, item, trading.today)
    data = _data(made) | {"asking": item.asking, "floor": floor}
    data |= {"offer": wanted and as_json(wanted)}
    text = [f"{item.number}  {what}".strip(), *judged_lines(made.judgement), *drawn]
    text += [LEGEND] if drawn else []
    text += [_line(each) for each in made.comparables]
    text += ["Other things, which do not price it:"] if made.others else []
    text += [_line(each) for each in made.others[:12]]
    text += [f"Your floor is {pounds(floor)}: cost, VAT and least profit."] if floor is not None else []
    text += judged_lines(wanted.judgement) if wanted else []
    return Reply(data, "\n".join(text))


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
        "judgement": judged(made.judgement),
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
