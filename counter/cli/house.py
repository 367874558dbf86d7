"""`counter house`: the business, its limits, rates and factors; all dated, all yours to change."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import asdict
from decimal import Decimal

from counter.cli.call import Call, Reply
from counter.cli.deals import MANY, day_of, pairs
from counter.desk.trade.settings import read_business
from counter.reference.money import DEFER
from counter.trade.settings import Settings
from counter.values.money import pounds, read_pence
from counter.values.record import values_of


def arguments(parser: ArgumentParser) -> None:
    """What to change; nothing given shows what holds."""
    parser.add_argument("--set", **MANY, default=[], metavar="NAME=VALUE", help="of the business")
    parser.add_argument("--limit", **MANY, default=[], metavar="KIND=SUM", help="a dated limit")
    parser.add_argument("--vat", metavar="PERCENT", help="a new standard rate")
    parser.add_argument("--exchange", **MANY, default=[], metavar="CODE=RATE", help="per pound")
    parser.add_argument("--source", metavar="WORDS", default="own rate", help="where the rate is from")
    parser.add_argument("--factor", **MANY, default=[], metavar="LINE=FACTOR", help="of the schedule")
    parser.add_argument("--date", metavar="DATE", help="from which day; today if left out")


def run(chosen: Namespace, call: Call) -> Reply:
    """{business, limits, vat_percent, factors} as they hold on the day."""
    trading = call.desk.trading
    settings, day = trading.settings, day_of(chosen.date, trading)
    _change(chosen, settings, day)
    return _shown(settings, day, call.costs)


def _change(chosen: Namespace, settings: Settings, day: str) -> None:
    if chosen.set:
        settings.change_business(**read_business(pairs(chosen.set, "name=A. Dealer"), in_pence=True))
    for kind, value in pairs(chosen.limit, "high-value-dealer=10000").items():
        settings.set_limit(kind, read_pence(value, "a limit"), day)
    for code, rate in pairs(chosen.exchange, "EUR=1.1650").items():
        settings.set_exchange(code, rate, day, chosen.source)
    for line, factor in pairs(chosen.factor, "fault-thin=0.4").items():
        settings.set_factor(line, factor)
    if chosen.vat:
        settings.set_vat_rate(chosen.vat, day)


def _shown(settings: Settings, day: str, costs: bool) -> Reply:
    terms = settings.on(day)
    limits, rate = list(terms.limits.values()), terms.vat
    own = {name: str(value) for name, value in terms.factors.items()}
    data = {
        "business": values_of(settings.business),
        "limits": [asdict(each) for each in limits],
        "vat_percent": str(rate.percent),
        "vat_source": rate.source,
        "factors": {
            line.id: own.get(line.id, _plain(line.factor)) for line in settings.facts.schedule.values()
        },
        "own_factors": own,
    }
    shown = values_of(settings.business)
    if shown["cost_code"] and not costs:
        shown["cost_code"] = "(chosen; --costs shows it)"
    for name in [each for each in shown if each.endswith("_pence")]:
        shown[name.removesuffix("_pence")] = pounds(shown.pop(name))
    lines = [f"{name.replace('_', ' '):<20}{value}" for name, value in shown.items()]
    lines.append(f"{'VAT':<20}{rate.percent} % ({rate.source})")
    for each in limits:
        amount = each.words
        since = f"since {each.since} " if each.since else ""
        lines.append(f"{each.kind:<28}{amount:>14}  {since}({each.source})")
    return Reply(data, "\n".join([*lines, DEFER]))


def _plain(value: Decimal) -> str:
    return f"{value:f}"
