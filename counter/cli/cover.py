"""`counter cover TEXT`: does the stamp belong to the cover? A finding with every check."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any

from counter.cli.call import Call, Reply
from counter.desk.covers.case import CoverCase, open_case
from counter.judge.cover.check import DEFER
from counter.judge.cover.cover_chart import draw
from counter.judge.cover.result import CheckResult
from counter.values.errors import InputError

_WIDE = 78
_ASKED = 6
_LONGEST = 2_000  # characters: far more than anybody types of one cover


def arguments(parser: ArgumentParser) -> None:
    """The cover in free words."""
    parser.add_argument(
        "text",
        nargs="+",
        metavar="TEXT",
        help="the cover in your own words: 1d red imperf tied black mx leeds 12 mar 1842 half ounce",
    )


def run(chosen: Namespace, call: Call) -> Reply:
    """{finding, words, checks, asks, cautions, unread, ...}; see docs/covers.md."""
    text = " ".join(chosen.text).strip()
    if not text:
        raise InputError(
            "Say what the cover shows, such as: 1d red imperf tied black mx leeds 12 mar 1842."
        )
    if len(text) > _LONGEST:
        raise InputError(
            f"A line of {len(text)} characters is too long; say it in {_LONGEST} or fewer."
        )
    case = open_case(call.library, text)
    return Reply(_data(case), "\n".join(_lines(case)))


def _data(case: CoverCase) -> dict[str, Any]:
    found = case.found
    return {
        "finding": found.finding,
        "words": found.words,
        "checks": [_check(each) for each in found.results if each.applies],
        "asks": [ask.question for ask in found.asks],
        "cautions": list(found.cautions),
        "defers_to": DEFER,
        "stamps": [stamp.id for stamp in case.seen.stamps],
        "read": [{"kind": seen.kind, "value": seen.value} for seen in case.reading.observations],
        "unread": list(case.unread),
    }


def _check(result: CheckResult) -> dict[str, str]:
    return {
        "id": result.id,
        "speaks": result.speaks,
        "strength": result.strength,
        "reason": result.reason,
        "source": result.source,
        "confidence": result.confidence,
    }


def _lines(case: CoverCase) -> list[str]:
    found = case.found
    lines = [f"{found.finding.upper()}: {found.words}."]
    for result in found.decided():
        sign = "+" if result.speaks == "for" else "−"
        source = f"{result.source}, {result.confidence}"
        lines.append(f"  {sign} {result.speaks}, {result.strength}: {result.reason} [{source}]")
    if case.chart:
        lines += ["", *draw(case.chart, _WIDE)]
    lines += ["", *(f"  ! {caution}" for caution in found.cautions)] if found.cautions else [""]
    lines += [f"  ? {ask.question}" for ask in found.asks[:_ASKED]]
    if case.unread:
        lines.append(f"  Not understood: {', '.join(case.unread)}.")
    return [*lines, DEFER]
