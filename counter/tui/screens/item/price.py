"""What the piece might fetch, in lines: the suggestion, its picture, reasons, and each comparable."""

from __future__ import annotations

from itertools import groupby

from counter.judge.price.comparables import Comparable
from counter.judge.price.price_chart import ASKED, FLAGGED, MANY, SOLD, Picture
from counter.judge.price.suggestion import Suggestion
from counter.tui.widgets.paragraphs import Cited, prose
from counter.tui.widgets.reasons import reason_lines
from counter.tui.widgets.text import Line, Span, two_ends
from counter.values.dates import short_day
from counter.values.money import half_up, marked, pounds
from counter.values.visible import how_many

_WORD = 10  # columns of the word before each row of the picture
_FINER = str.maketrans({SOLD: "■", ASKED: "□", MANY: "◆", "[": "├", "]": "┤", "-": "─", "^": "▲"})
_INKS = {"■": "good", "□": "accent", "◆": "strong", FLAGGED: "care", "▲": "strong"}
_LEGEND: Line = [
    ("  ■", "good"), (" sold   ", "dim"), ("□", "accent"), (" asked   ", "dim"), ("◆", "strong"),
    (" several   ", "dim"), (FLAGGED, "care"), (" far from the rest   ├─┤ range", "dim"),
]  # fmt: skip


def price_lines(made: Suggestion, drawn: Picture, cited: Cited, width: int) -> list[Line]:
    """The suggestion (or that nothing is suggested), the picture, and everything it rests on."""
    told = (
        prose(made.judgement.verdict, width, "care") if made.price is None else _suggested(made, width)
    )
    lines = [*told, *_picture(drawn, width), *_why(made, cited, width), *_comparables(made, width)]
    return [*lines, *cited.lines(width)]


def _suggested(made: Suggestion, width: int) -> list[Line]:
    assert made.marked is not None
    told = [("  ", "plain"), (marked(made.marked), "price"), (" suggested", "plain")]
    return [told, *prose(made.judgement.verdict, width)]


def _picture(drawn: Picture, width: int) -> list[Line]:
    rows = drawn.rows(min(width - 4, 100))
    if not rows:
        return []
    return [[], *([("  ", "plain"), *_row(row)] for row in rows), _LEGEND, []]


def _row(row: str) -> list[Span]:
    """A row of the picture with finer signs, each in its ink; words and prices stay as they are."""
    word, rest = row[:_WORD], row[_WORD:]
    label: Span = (word, "dim")
    if word.strip() in ("sold", "asked"):
        signs = groupby(rest.translate(_FINER), lambda sign: _INKS.get(sign, "plain"))
        return [label, *(("".join(run), ink) for ink, run in signs)]
    if word.strip() == "price":
        return [label, (_stroke(rest), "dim")]
    if word.strip() == "range":
        return [label, (rest.translate(_FINER), "good")]
    return [label, (rest.replace("^", "▲"), "strong" if word.strip() == "suggest" else "accent")]


def _stroke(axis: str) -> str:
    return axis.replace("-", "─")


def _why(made: Suggestion, cited: Cited, width: int) -> list[Line]:
    lines = reason_lines(made.judgement.reasons, cited, width)
    for caution in made.judgement.cautions:
        lines += prose(caution, width, "care", head=("  ! ", "care"))
    for asked in made.judgement.asks:
        lines += prose(asked, width, head=("  ? ", "unknown"))
    return [*lines, []] if lines else []


def _comparables(made: Suggestion, width: int) -> list[Line]:
    if not made.comparables:
        return []
    count = f"{how_many(made.count, 'comparable')}, the likest first"
    lines: list[Line] = [[("  " + count, "head"), ("   price → at this condition, weight", "dim")]]
    return lines + [_comparable(each, width) for each in made.comparables]


def _comparable(each: Comparable, width: int) -> Line:
    """Sign, number and day on the left; price, adjusted price and weight on the right, never cut."""
    evidence = each.evidence
    flag = (FLAGGED, "care") if each.flagged else (" ", "plain")
    sign = "■" if evidence.kind == "sold" else "□"
    left: Line = [(" ", "plain"), flag, (sign, _INKS[sign]), (f" {evidence.number:<8}", "accent")]
    left += [(f" {short_day(evidence.day):>11} ", "dim"), (", ".join(each.differences[:3]), "dim")]
    sums = f" {pounds(evidence.price):>9} → {pounds(half_up(each.adjusted)):>9}"
    return two_ends(left, [(sums, "plain"), (f" {float(each.weight):.2f}", "dim")], width - 1)
