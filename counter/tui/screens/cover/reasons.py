"""The reasons page: every check with how it speaks, how strongly, why, its source, how sure."""

from __future__ import annotations

from collections import ChainMap

from counter.desk.covers.session import CoverNotes
from counter.judge.cover.result import CheckResult
from counter.reference.postal import Postal
from counter.reference.sources import Source
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.reasons import reason_side, reason_sign
from counter.tui.widgets.text import Line

_BANDS = {"none": "○○○", "weak": "●○○", "moderate": "●●○", "strong": "●●●"}
_LABEL = 27


def reasons(notes: CoverNotes, width: int) -> list[Line]:
    """Against, for, then what is not decided; the sources by number at the end."""
    found, postal = notes.case.found, notes.desk.library.postal
    cited = Cited(sources(notes))
    lines: list[Line] = []
    for result in found.decided():
        lines += _decided(result, postal, cited, width)
    open_ = [each for each in found.results if each.speaks == "neutral" and each.applies]
    if open_:
        lines += [[], [(f"  Tells nothing so far ({len(open_)})", "head")]]
    for result in open_:
        head = f"  {'?' if result.open else '·'} {postal.checks[result.id].label}".ljust(_LABEL)
        lines += prose(result.reason, width, "dim", head=(head, "plain"))
    return [*lines, *cited.lines(width)]


def sources(notes: CoverNotes) -> ChainMap[str, Source]:
    """Those of the postal history and those of the stamps."""
    library = notes.desk.library
    return ChainMap(library.postal.sources, library.stamps.sources)


def weighty(notes: CoverNotes, width: int) -> list[Line]:
    """In short what made the finding: the weighty points against, else those for."""
    decided = [each for each in notes.case.found.decided() if each.strength != "weak"]
    against = [each for each in decided if each.speaks == "against"]
    lines: list[Line] = []
    for result in against or decided:
        sign, ink = reason_sign(result.speaks)
        lines += prose(result.reason, width, head=(f"  {sign} ", ink))
    return lines


def _decided(result: CheckResult, postal: Postal, cited: Cited, width: int) -> list[Line]:
    sign, ink = reason_side(result.speaks)
    band = f"{_BANDS[result.strength]} {result.strength}"
    label = postal.checks[result.id].label
    head: Line = [(f"  {sign:<11}", ink), (f"{band:<14}", "plain"), (label, "strong")]
    told = cited.mark(result.source, result.confidence)
    return [head, *prose(result.reason, width, head=("    ", "plain"), tail=told)]
