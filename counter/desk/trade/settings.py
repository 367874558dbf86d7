"""The house's settings as lines to read and change: business, limits, rates, currencies, factors."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from counter.store.records.shop import Business
from counter.trade.settings import Settings
from counter.trade.terms import Terms
from counter.values.errors import InputError, UserError
from counter.values.money import pounds, read_pence
from counter.values.record import values_of

_LABELS = {
    "vat_number": "VAT number",
    "registered_from": "registered for VAT from",
    "registered_until": "registered until",
    "period_months": "VAT period, months",
    "global_since": "global accounting since",
    "opening_stock_pence": "opening stock of it",
    "warn_cash_pence": "warn from cash of",
    "profit_percent": "wanted profit, per cent",
    "floor_percent": "least profit, per cent",
    "half_life_months": "half-life of prices, months",
    "quote_days": "a quote holds, days",
    "terms": "terms of sale",
    "cost_code": "cost code",
    "high_value_dealer": "high value dealer, number",
}
#: The words in the kind of a limit that are not said as they are spelt there.
_SAID = {
    "vat": "VAT",
    "mtd": "Making Tax Digital,",
    "dp": "data protection",
    "tier1": "(smallest tier)",
    "jersey": "Jersey",
    "gst": "GST",
}
_HINTS = {
    "name": "As it stands on your invoices.",
    "address": "As it stands on your invoices.",
    "vat_number": "Stands on invoices while you are registered.",
    "registered_from": "The day as 2026-05-01; empty means not registered for VAT.",
    "registered_until": "The last day registered; empty while you are.",
    "scheme": "What an eligible piece goes under unless told otherwise.",
    "period_months": "How many months one VAT period has.",
    "global_since": "The first day of global accounting; empty when it is not used.",
    "opening_stock_pence": "The value of eligible stock on that first day.",
    "warn_cash_pence": "You are warned from this much cash with one person in twelve months.",
    "profit_percent": "Of the resale, wanted when buying.",
    "floor_percent": "Of the cost, the least profit when selling.",
    "half_life_months": "After so many months an own sale counts half in a price.",
    "quote_days": "How many days a kept quote holds.",
    "cost_code": "Ten different letters for 1 to 9 and then 0; empty for none.",
    "high_value_dealer": "HMRC's registration for cash at the law's limit; empty for none.",
    "terms": "Your terms of sale, printed under an invoice.",
}


@dataclass(frozen=True, slots=True)
class HouseLine:
    """One setting: its group, key and label, its value in words, where it is from, how to change it.

    `note(typed, day)` notes another value from a day on; raises UserError, then nothing changed.
    """

    group: str
    key: str
    label: str
    value: str
    source: str
    hint: str
    choices: tuple[str, ...]
    note: Callable[[str, str], object]


def house_lines(settings: Settings, day: str) -> Iterator[HouseLine]:
    """Every setting as it holds on a day."""
    yield from _business_lines(settings)
    terms = settings.on(day)
    yield from _limit_lines(settings, terms)
    rate = terms.vat
    yield HouseLine(
        "VAT",
        "vat",
        "standard rate, per cent",
        f"{rate.percent:f}",
        _title(settings, rate.source),
        "A new rate holds from the day you note; earlier sales keep theirs.",
        (),
        settings.set_vat_rate,
    )
    yield from _exchange_lines(settings, terms)
    for line in settings.facts.schedule.values():
        value = terms.factors.get(line.id, line.factor)
        source = "own edit" if line.id in terms.factors else line.source
        label = line.id.replace("-", " ").replace(" re ", " re-")
        hint = "Times the price of a sound copy: a factor from 0 to 100; - takes your own edit off."
        note = _factor_of(settings, line.id)
        yield HouseLine("House schedule", line.id, label, f"{value:f}", source, hint, (), note)


def _factor_of(settings: Settings, line: str) -> Callable[[str, str], object]:
    return lambda typed, _: settings.set_factor(line, typed)


def _business_lines(settings: Settings) -> Iterator[HouseLine]:
    for name, value in values_of(settings.business).items():
        shown = pounds(value) if name.endswith("_pence") else str(value)
        label = _LABELS.get(name, name)
        choices = ("margin", "global", "ordinary") if name == "scheme" else ()
        note = _business_of(settings, name)
        yield HouseLine("Business", name, label, shown, "", _HINTS.get(name, ""), choices, note)


def _business_of(settings: Settings, name: str) -> Callable[[str, str], object]:
    return lambda typed, _: settings.change_business(**read_business({name: typed}))


def read_business(words: dict[str, str], *, in_pence: bool = False) -> dict[str, Any]:
    """Settings of the business from what was typed; raises InputError for one that is none.

    `in_pence` takes a bare figure for a name that ends in _pence as pence, so that what JSON shows can
    be given back; the same name without _pence is in pounds.
    """
    known = values_of(Business())
    made: dict[str, Any] = {}
    for given, value in words.items():
        name = given if given in known else f"{given}_pence"
        if name not in known:
            raise InputError(f"The business has no {given}; it has {', '.join(known)}.")
        if given.endswith("_pence") and in_pence and not value.startswith("£"):
            if not value.isascii() or not value.isdigit():
                raise InputError(f"{given} is in pence, as 10000; {given[:-6]}=100 is in pounds.")
            made[name] = int(value)
        elif name.endswith("_pence"):
            made[name] = read_pence(value, name.removesuffix("_pence").replace("_", " "))
        elif isinstance(known[name], int):
            if not value.isascii() or not value.isdigit():
                raise InputError(
                    f"{name.replace('_', ' ')} is a whole number, not {value or 'nothing'}."
                )
            made[name] = int(value)
        else:
            made[name] = value
    return made


def _limit_lines(settings: Settings, terms: Terms) -> Iterator[HouseLine]:
    named: dict[str, str] = {}
    for each in settings.facts.thresholds.values():
        named.setdefault(each.kind, each.name)
    for limit in terms.limits.values():
        since = f"since {limit.since}, " if limit.since else ""
        yield HouseLine(
            "Limits",
            limit.kind,
            " ".join(_SAID.get(word, word) for word in limit.kind.split("-")),
            limit.words,
            f"{since}{_title(settings, limit.source)}",
            f"{named[limit.kind]}. In pounds.",
            (),
            _limit_of(settings, limit.kind),
        )


def _title(settings: Settings, source: str) -> str:
    """The title of a source up to its explanations; "own figure" and the like say themselves."""
    found = settings.facts.sources.get(source)
    return found.title.partition(", as described")[0].partition(" (edition")[0] if found else source


def _limit_of(settings: Settings, kind: str) -> Callable[[str, str], object]:
    return lambda typed, day: settings.set_limit(kind, read_pence(typed, "a limit"), day)


def _exchange_lines(settings: Settings, terms: Terms) -> Iterator[HouseLine]:
    for code, currency in settings.facts.currencies.items():
        if code == "GBP":
            continue
        try:
            _, rate, noted = terms.rate(code)
            value, source = f"{rate:f}", f"{noted.source}, {noted.date}"
        except UserError:
            value, source = "", "none noted"
        hint = f"How many {currency.name} one pound buys, as 1.1650."
        note = _exchange_of(settings, code)
        yield HouseLine("Exchange, to one pound", code, code, value, source, hint, (), note)


def _exchange_of(settings: Settings, code: str) -> Callable[[str, str], object]:
    return lambda typed, day: settings.set_exchange(code, typed, day)
