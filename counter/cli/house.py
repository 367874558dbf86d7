"""`counter house`: the business, its limits, rates and factors; all dated, all yours to change."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict
from decimal import Decimal

from counter.cli.call import Call, Reply
from counter.cli.deals import day_of, pairs
from counter.desk.trade.settings import limit_words, limits_on, read_business
from counter.reference.money import DEFER
from counter.trade.settings import House
from counter.values.money import read_pence


def arguments(parser: ArgumentParser) -> None:
    """What to change; nothing given shows what holds."""
    parser.add_argument("--set", nargs="+", default=[], metavar="NAME=VALUE", help="of the business")
    parser.add_argument("--limit", nargs="+", default=[], metavar="KIND=SUM", help="a dated limit")
    parser.add_argument("--vat", metavar="PERCENT", help="a new standard rate")
    parser.add_argument("--exchange", nargs="+", default=[], metavar="CODE=RATE", help="per pound")
    parser.add_argument(
        "--factor", nargs="+", default=[], metavar="LINE=FACTOR", help="of the schedule"
    )
    parser.add_argument("--date", metavar="DATE", help="from which day; today if left out")


def run(chosen: Namespace, call: Call) -> Reply:
    """{business, limits, vat_percent, factors} as they hold on the day."""
    trading = call.desk.trading
    house, day = trading.house, day_of(chosen.date, trading)
    _change(chosen, house, day)
    return _shown(house, day, getattr(chosen, "costs", False))


def _change(chosen: Namespace, house: House, day: str) -> None:
    if chosen.set:
        house.change_business(**read_business(pairs(chosen.set, "name=A. Dealer")))
    for kind, value in pairs(chosen.limit, "high-value-dealer=10000").items():
        house.set_limit(kind, read_pence(value, "a limit"), day)
    for code, rate in pairs(chosen.exchange, "EUR=1.1650").items():
        house.set_exchange(code, rate, day)
    for line, factor in pairs(chosen.factor, "fault-thin=0.4").items():
        house.set_factor(line, factor)
    if chosen.vat:
        house.set_vat_rate(chosen.vat, day)


def _shown(house: House, day: str, costs: bool) -> Reply:
    limits = limits_on(house, day)
    rate = house.vat_rate(day)
    own = {name: str(value) for name, value in house.own_factors().items()}
    data = {
        "business": asdict(house.business),
        "limits": [asdict(each) for each in limits],
        "vat_percent": str(rate.percent),
        "vat_source": rate.source,
        "factors": {
            line.id: own.get(line.id, _plain(line.factor)) for line in house.facts.schedule.values()
        },
        "own_factors": own,
    }
    shown = asdict(house.business)
    if shown["cost_code"] and not costs:
        shown["cost_code"] = "(chosen; --costs shows it)"
    lines = [f"{name.replace('_', ' '):<20}{value}" for name, value in shown.items()]
    lines.append(f"{'VAT':<20}{rate.percent} % ({rate.source})")
    for each in limits:
        amount = limit_words(each)
        since = f"since {each.since} " if each.since else ""
        lines.append(f"{each.kind:<28}{amount:>14}  {since}({each.source})")
    return Reply(data, "\n".join([*lines, DEFER]))


def _plain(value: Decimal) -> str:
    return f"{value:f}"
