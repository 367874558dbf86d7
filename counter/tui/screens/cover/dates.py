"""The dates page: the drawn chart, cautions, what was noted before, and what was not understood."""

from __future__ import annotations

import re

from counter.desk.covers.session import CoverNotes
from counter.judge.cover.cover_chart import draw
from counter.tui.screens.cover.reasons import weighty
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.text import Line

_RUN = re.compile("━+|┄+|│|╳|[^━┄│╳]+")
_INKS = {"━": "good", "┄": "dim", "│": "strong", "╳": "bad"}


def dates(notes: CoverNotes, width: int, *, alone: bool = False) -> list[Line]:
    """The chart first; whatever must not be overlooked stands under it. `alone`: the reasons are not
    in view beside it, so those that made the finding are told here."""
    case = notes.case
    lines: list[Line] = []
    if case.chart:
        lines += [_row(row) for row in draw(case.chart, max(width - 2, 40))]
    else:
        lines.append([("  Nothing has a date yet: name the stamp, the cancel or the day.", "dim")])
    for caution in case.found.cautions:
        lines += [[], *prose(caution, width, "care", head=("  ! ", "care"))]
    if alone and (why := weighty(notes, width)):
        lines += [[], *why]
    before = notes.item.cover.finding if notes.item and notes.item.cover else ""
    if before:
        lines += [[], *prose(before, width, head=("  kept before: ", "dim"))]
    if case.unread:
        lines += [[], *prose(", ".join(case.unread), width, "bad", head=("  not understood: ", "care"))]
    return lines


def _row(row: str) -> Line:
    """A row of the chart: bars, the date across them, and a clash each in their own ink."""
    if row.startswith("╳"):
        return [(f" {row}", "bad")]
    plain = "dim" if not row[:1].strip() else "accent" if row.startswith("this cover") else "plain"
    return [(" ", "plain"), *((run, _INKS.get(run[0], plain)) for run in _RUN.findall(row))]
