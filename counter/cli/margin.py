"""`counter margin`: what is left of one sale after VAT, by the rate on the day it was sold."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from counter.cli.call import Call, Reply, wrapped
from counter.reference.money import DEFER
from counter.values.date_words import day_of_words
from counter.values.errors import InputError
from counter.values.money import pounds, read_pence
from counter.values.vat import NO_VAT, fraction_words, on_full_price, on_margin

_SCHEMES = ("margin", "ordinary", "none")


def arguments(parser: ArgumentParser) -> None:
    """--bought and --sold in pounds, --date of the sale, and how VAT is accounted for."""
    parser.add_argument("--bought", required=True, metavar="SUM", help="what was paid to the seller")
    parser.add_argument("--sold", required=True, metavar="SUM", help="all that the buyer pays")
    parser.add_argument("--date", metavar="DATE", help="date of the sale; today if left out")
    parser.add_argument("--bought-on", metavar="DATE", help="date of the purchase, to be checked")
    parser.add_argument(
        "--scheme", choices=_SCHEMES, default="margin", help="none: not registered for VAT"
    )
    parser.add_argument("--why", action="store_true", help="with --json: rate and reasons as well")


def run(chosen: Namespace, call: Call) -> Reply:
    """Pence as integers: {margin, vat, net}; the text adds the rate and the rules used."""
    bought = read_pence(chosen.bought, "the price bought at")
    sold = read_pence(chosen.sold, "the price sold at")
    day = day_of_words(chosen.date) if chosen.date else call.today.isoformat()
    bought_on = day_of_words(chosen.bought_on) if chosen.bought_on else ""
    if bought_on > day:
        raise InputError(f"The sale on {day} is before the purchase on {bought_on}.")
    facts = call.library.money
    rate = call.desk.trading.settings.on(day).vat
    fraction, percent = fraction_words(rate.part), f"{rate.percent.normalize():f}"
    if chosen.scheme == "none":
        made, how, rule = (
            on_margin(bought, sold, NO_VAT),
            "not registered: no VAT",
            "margin-only-if-registered",
        )
    elif chosen.scheme == "ordinary":
        made, how, rule = on_full_price(bought, sold, rate.part), "on the full price", "onus-on-dealer"
    else:
        rule = "margin-vat" if sold > bought else "margin-zero-or-loss"
        made, how = on_margin(bought, sold, rate.part), "on the margin alone"
    if chosen.scheme != "none":
        how += f", {fraction} at {percent} % on {day}"
    reasons = [facts.rules[rule], facts.rules["rounding-half-up"]]
    data: dict[str, object] = {"margin": made.margin, "vat": made.vat, "net": made.net}
    text = [
        f"Margin  {pounds(made.margin)}",
        f"VAT     {pounds(made.vat)}  ({how})",
        f"Net     {pounds(made.net)}",
        *(wrapped(f"{each.text} [{each.source}, {each.confidence}]") for each in reasons),
        DEFER,
    ]
    if chosen.why:
        why = [
            {"id": each.id, "text": each.text, "source": each.source, "confidence": each.confidence}
            for each in reasons
        ]
        data |= {"rate_percent": percent, "fraction": fraction}
        data |= {"date": day, "scheme": chosen.scheme, "reasons": why, "caution": DEFER}
    return Reply(data, "\n".join(text))
