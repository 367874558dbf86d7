"""The day drawn: takings and payments as bars on one scale, the box, the profit when asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from counter.desk.trade.close_day import DayRead
from counter.trade.day_totals import BoxLine, Day
from counter.tui.widgets.paragraphs import prose
from counter.tui.widgets.text import Line, two_ends
from counter.values.money import pounds
from counter.values.visible import how_many

_EIGHTHS = " ▏▎▍▌▋▊▉"
_LABEL = 14


def bar(value: int, most: int, cells: int) -> str:
    """A bar so long for a value, in eighths of a cell; something taken is never drawn as nothing."""
    if value <= 0 or most <= 0:
        return ""
    eighths = max(value * cells * 8 // most, 1)
    return "█" * (eighths // 8) + _EIGHTHS[eighths % 8].strip()


def day_lines(read: DayRead, width: int, *, costs: bool) -> list[Line]:
    """The whole day for a width; what was paid and the profit only when `costs` are asked for."""
    day = read.day
    most = max([*day.takings.values(), *day.paid_out.values(), 1])
    lines = _group("taken", day.takings, most, width, "good")
    lines.append(_sum("sold", day.traded, day.sold, width))
    bought = how_many(day.purchases, "purchase")
    if costs:
        lines += [[], *_group("paid out", day.paid_out, most, width, "care")]
        lines.append(_sum("bought", bought, day.bought, width))
    else:
        lines += [
            [],
            *(_covered(label, words) for label, words in (("paid out", ""), ("bought", bought))),
        ]
    lines += [[], *_box(day, width), _profit(day, width, shown=costs)]
    for each in read.cash:
        lines += prose(each + ".", width, "care", head=("  ! ", "care"))
    return lines


def _group(label: str, sums: Mapping[str, int], most: int, width: int, ink: str) -> list[Line]:
    if not sums:
        return [[(f"  {label:<{_LABEL}}", "dim"), ("nothing yet", "dim")]]
    lines: list[Line] = []
    for method, pence in sums.items():
        head = label if not lines else ""
        room = max(width - _LABEL - 12 - 16, 4)
        left: Line = [
            (f"  {head:<{_LABEL}}", "dim"),
            (f"{method:<11} ", "plain"),
            (bar(pence, most, room), ink),
        ]
        lines.append(two_ends(left, [(f" {pounds(pence):>11} ", "price")], width))
    return lines


def _sum(label: str, words: str, pence: int, width: int) -> Line:
    left: Line = [(f"  {label:<{_LABEL}}", "dim"), (words, "plain")]
    return two_ends(left, [(f" {pounds(pence):>11} ", "strong")], width)


def _box(day: Day, width: int) -> list[Line]:
    lines = [
        _sum("" if place else "in and out", line.said(), line.pence, width)
        for place, line in enumerate(_by_kind(day.cash))
    ]
    lines.append(_sum("box holds", f"float {pounds(day.opening)}", day.box, width))
    if day.counted is not None and day.difference is not None:
        same = "as it should be" if not day.difference else f"{pounds(day.difference)} off"
        lines.append(_sum("counted", f"day closed, {same}", day.counted, width))
    return lines


def _by_kind(lines: Sequence[BoxLine]) -> list[BoxLine]:
    """One line for each kind; what a sum was for is told where it stands alone."""
    kinds: dict[str, list[BoxLine]] = {}
    for line in lines:
        kinds.setdefault(line.kind, []).append(line)
    return [
        alike[0]
        if len(alike) == 1
        else BoxLine(kind, sum(line.pence for line in alike), f"{len(alike)} of them")
        for kind, alike in kinds.items()
    ]


def _profit(day: Day, width: int, *, shown: bool) -> Line:
    if shown:
        return _sum("profit", "after VAT on the lines sold", day.profit, width)
    return _covered("profit", "")


def _covered(label: str, words: str) -> Line:
    return [
        (f"  {label:<{_LABEL}}", "dim"),
        (f"{words}, " if words else "", "plain"),
        ("F8 shows it", "dim"),
    ]
