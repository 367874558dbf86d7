"""The day drawn: takings and payments as bars on one scale, the box, the profit when asked for."""

from __future__ import annotations

from collections.abc import Mapping

from counter.desk.day_close import DayRead
from counter.ledger.day import Day
from counter.tui.kit.drawn import two_ends
from counter.tui.kit.prose import prose
from counter.tui.text import Line
from counter.values.money import pounds

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
    lines.append(_sum("sold", f"{_count(day.sales, 'sale')}", day.sold, width))
    bought = _count(day.purchases, "purchase")
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
    parts = [f"float {pounds(day.opening)}"]
    parts += [f"other cash {pounds(day.other_cash)}"] if day.other_cash else []
    lines = [_sum("box holds", ", ".join(parts), day.box, width)]
    if day.counted is not None and day.difference is not None:
        same = "as it should be" if not day.difference else f"{pounds(day.difference)} off"
        lines.append(_sum("counted", f"day closed, {same}", day.counted, width))
    return lines


def _profit(day: Day, width: int, *, shown: bool) -> Line:
    if shown:
        return _sum("profit", "after VAT on the lines sold", day.profit, width)
    return _covered("profit", "")


def _covered(label: str, words: str) -> Line:
    return [
        (f"  {label:<{_LABEL}}", "dim"),
        (f"{words}, " if words else "", "plain"),
        ("F4 shows it", "dim"),
    ]


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
