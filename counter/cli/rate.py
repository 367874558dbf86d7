"""`counter rate`: what it cost to post something on a day, with its reason and source."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from fractions import Fraction
from typing import Any

from counter.cli.call import Call, Reply
from counter.judge.cover.fees import deficiency
from counter.judge.cover.postage_scale import OUNCES
from counter.judge.cover.question import SERVICES, RateAnswer, RateQuestion
from counter.judge.cover.rates import rate_for
from counter.judge.cover.weights import weights_paying
from counter.reference.postal import Postal
from counter.values.date_words import date_of_words
from counter.values.errors import InputError
from counter.values.postage import Postage, plain_number, read_number, read_postage

_HEAVIEST = 100_000  # ounces, miles or sheets: more is a slip of the hand


def arguments(parser: ArgumentParser) -> None:
    """--date and what is known of the item."""
    day = "12 mar 1842, mar 1842, 1842 or 1842-03-12"
    parser.add_argument("--date", required=True, nargs="+", metavar="DATE", help=day)
    parser.add_argument("--ounces", metavar="N", help="weight in ounces: 0.5, ½, 1 1/2")
    parser.add_argument("--grams", metavar="N", help="weight in grams instead")
    parser.add_argument("--sheets", metavar="N", help="sheets of paper (before 5 December 1839)")
    parser.add_argument("--miles", metavar="N", help="miles gone (before 5 December 1839)")
    parser.add_argument("--service", choices=SERVICES, default="letter")
    parser.add_argument("--unpaid", action="store_true", help="nothing was prepaid")
    parser.add_argument("--to", default="", metavar="PLACE", help="a place abroad, or in Scotland")
    parser.add_argument("--via", default="", metavar="WAY", help="the way it went: southampton, ship")
    parser.add_argument("--scotland", action="store_true", help="carried in Scotland (1813-39)")
    parser.add_argument("--redirected", metavar="N", default="0", help="times it was redirected")
    parser.add_argument(
        "--late-fee", nargs="?", const="late", default="", metavar="HH:MM", help="handed in late, when"
    )
    parser.add_argument("--paid", metavar="POSTAGE", help="which weights would explain it: 2d, 1s, 3p")


def run(chosen: Namespace, call: Call) -> Reply:
    """{pence, unit, text, rule, source, confidence, established, ...}; pence may be null."""
    postal = call.library.postal
    asked = RateQuestion(
        when=date_of_words(" ".join(chosen.date)),
        ounces=_ounces(chosen),
        sheets=_whole(chosen.sheets, "sheets"),
        miles=_amount(chosen.miles, "miles"),
        service=chosen.service,
        unpaid=chosen.unpaid,
        to=chosen.to,
        via=chosen.via,
        scotland=chosen.scotland,
        redirected=_whole(chosen.redirected, "redirections", least=0) or 0,
        late_at=chosen.late_fee,
    )
    answer = rate_for(postal, asked)
    data, lines = _data(postal, answer), _lines(postal, answer)
    if chosen.paid:
        paid = read_postage(chosen.paid)
        spans = weights_paying(postal, asked, asked.when.earliest, paid)
        data["weights"] = [span.words() for span in spans]
        lines.append(
            f"{chosen.paid} pays: {', '.join(data['weights']) or 'no weight that is recorded'}."
        )
        if due := _short(postal, asked, answer, paid):
            data["to_collect"] = plain_number(due.pence)
            lines.append(f"Too little: {due.words()} was to be collected, double what was missing.")
    return Reply(data, "\n".join(lines))


def _short(postal: Postal, asked: RateQuestion, answer: RateAnswer, paid: Postage) -> Postage | None:
    """What was to be collected where too little was paid; None where that is not known."""
    if answer.pence is None or answer.unit != paid.unit:
        return None
    due = deficiency(postal, answer.pence, paid.pence, asked.when.earliest)
    return None if due is None else Postage(due, paid.unit)


def _data(postal: Postal, answer: RateAnswer) -> dict[str, Any]:
    return {
        "pence": None if answer.pence is None else plain_number(answer.pence),
        "unit": answer.unit,
        "text": answer.text,
        "rule": answer.rule,
        "source": answer.source,
        "confidence": answer.confidence,
        "established": answer.established,
        "records": list(answer.records),
        "parts": list(answer.parts),
        "also": list(answer.also),
        "asks": list(answer.asks),
        "source_titles": _titles(postal, answer),
    }


def _titles(postal: Postal, answer: RateAnswer) -> list[str]:
    named = answer.source.split("; ")
    return [postal.sources[each].title for each in named if each in postal.sources]


def _lines(postal: Postal, answer: RateAnswer) -> list[str]:
    lines = [answer.text]
    if answer.rule:
        lines.append(f"  {answer.rule}")
    if answer.source:
        source = "; ".join(_titles(postal, answer)) or answer.source
        lines.append(f"  Source: {source}. Confidence: {answer.confidence}.")
    lines += [f"  Also: {each}" for each in answer.also]
    return lines + [f"  Asked: {each}" for each in answer.asks]


def _ounces(chosen: Namespace) -> Fraction | None:
    if chosen.grams is not None and chosen.ounces is not None:
        raise InputError("Give the weight in ounces or in grams, not both.")
    if chosen.grams is not None:
        grams = _amount(chosen.grams, "grams")
        return None if grams is None else grams * OUNCES["g"]
    return _amount(chosen.ounces, "ounces")


def _amount(text: str | None, what: str) -> Fraction | None:
    if text is None:
        return None
    number = read_number(text)
    if not 0 < number <= _HEAVIEST:
        raise InputError(f"{text} {what} is not possible; give a number above 0.")
    return number


def _whole(text: str | None, what: str, least: int = 1) -> int | None:
    if text is None:
        return None
    if not re.fullmatch("[0-9]{1,9}", text) or not least <= int(text) <= _HEAVIEST:
        raise InputError(f"{text!r} is not a number of {what}; give a whole number from {least} up.")
    return int(text)
