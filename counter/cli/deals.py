"""What the commands of buying and selling share: days, amounts and rows as JSON."""

from __future__ import annotations

from dataclasses import asdict, is_dataclass
from fractions import Fraction
from typing import Any

from counter.cli.call import wrapped
from counter.desk.trade.trading import Trading
from counter.judge.judgement import Judgement
from counter.values.date_words import day_of_words
from counter.values.errors import InputError
from counter.values.money import pounds, read_pence
from counter.values.quote import RunningQuote
from counter.values.record import Record, values_of


def day_of(chosen: str | None, trading: Trading) -> str:
    """The day given, or the desk's."""
    return day_of_words(chosen) if chosen else trading.today


#: An option that takes a list, and adds when it is given again.
MANY: dict[str, Any] = {"nargs": "+", "action": "extend"}


def pairs(words: list[str], example: str) -> dict[str, str]:
    """Words such as name=value as a table; raises InputError for one without "="."""
    found: dict[str, str] = {}
    for each in words:
        name, sign, value = each.partition("=")
        if not sign or not name.strip():
            raise InputError(f"{each} should be written like {example}.")
        if name.strip() in found:
            raise InputError(f"{name.strip()} was given twice; give it once.")
        found[name.strip()] = value.strip()
    return found


def payments(words: list[str] | None) -> tuple[tuple[str, int], ...]:
    """Payments such as cash=20 card=52.50 as (method, pence); a way given twice is paid in two parts."""
    table = [pairs([each], "cash=72.50") for each in words or []]
    return tuple((how, read_pence(sum_, "a payment")) for each in table for how, sum_ in each.items())


def not_by_half(running: RunningQuote, *, agreed: bool) -> RunningQuote:
    """The quote, whose discount may be a slip: more than half off is asked about. Raises InputError."""
    if not agreed and running.total * 2 < running.before:
        raise InputError(
            f"{pounds(running.total)} is less than half of {pounds(running.before)}; "
            f"say --agreed as well if that is meant."
        )
    return running


def price_judged(judgement: Judgement) -> dict[str, Any]:
    """A judgement as plain JSON values."""
    return asdict(judgement)


def judged_lines(judgement: Judgement) -> list[str]:
    """A judgement in lines: the verdict, its reasons with their sources, its cautions."""
    return [
        judgement.verdict,
        *(wrapped(f"{each.text} [{each.source}, {each.confidence}]") for each in judgement.reasons),
        *(wrapped(f"Ask: {each}") for each in judgement.asks),
        *(wrapped(f"Mind: {each}") for each in judgement.cautions),
    ]


def as_json(value: Any) -> Any:
    """Records, fractions and tuples as plain JSON values; a fraction is written "9/2"."""
    if is_dataclass(value) and not isinstance(value, type):
        return as_json(asdict(value))
    if isinstance(value, Record):
        return as_json(values_of(value))
    if isinstance(value, dict):
        return {key: as_json(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [as_json(each) for each in value]
    return str(value) if isinstance(value, Fraction) else value
