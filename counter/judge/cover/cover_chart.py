"""The chart of a cover as rows of plain characters, so that a screen only has to show them."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from counter.judge.cover.timeline import Bar, Timeline

_BAR, _FURTHER, _NOW, _CLASH = "━", "┄", "│", "╳"
_LABEL = (14, 26)  # least and most room for what a bar is
_NARROWEST = 12
_STEPS = (1, 2, 5, 10, 20, 50)  # years between the figures above the chart

Column = Callable[[date], int]


def draw(chart: Timeline, width: int) -> tuple[str, ...]:
    """The chart as rows of at most `width` characters: years above, bars, the date across them.

    A bar that the cover's date misses has a ╳ where the date crosses its row, and says so in words.
    """
    label = max(_LABEL[0], min(_LABEL[1], width // 3))
    room = max(width - label, _NARROWEST)
    column = _scale(chart, room)
    rows = [" " * label + _years(chart, room, column)]
    for bar in chart.bars:
        rows.append(f"{_short(bar.label, label - 1):<{label}}{_row(bar, chart, room, column)}")
    if chart.when:
        at = column(chart.when.earliest)
        words = chart.when.words()
        left = max(0, min(at - len(words) // 2, room - len(words)))
        rows.append(f"{'this cover':<{label}}{' ' * left}{words}")
    clashes = [bar.label for bar in chart.bars if not bar.holds(chart.when)]
    if clashes:
        rows.append(f"{_CLASH} the date lies outside: {', '.join(clashes)}")
    return tuple(row[: label + room].rstrip() for row in rows)


def _scale(chart: Timeline, room: int) -> Column:
    """The column of a day, kept on the chart."""
    days = max((chart.end - chart.start).days, 1)

    def column(day: date) -> int:
        return max(0, min(room - 1, (day - chart.start).days * (room - 1) // days))

    return column


def _years(chart: Timeline, room: int, column: Column) -> str:
    """The years along the top, as many as there is room for."""
    first, last = chart.start.year + 1, chart.end.year
    step = next((each for each in _STEPS if (last - first) / each * 6 <= room), _STEPS[-1])
    line = [" "] * room
    for year in range(first + -first % step, last + 1, step):
        at = column(date(year, 1, 1))
        if at + 4 <= room and all(char == " " for char in line[max(0, at - 1) : at + 5]):
            line[at : at + 4] = str(year)
    return "".join(line)


def _row(bar: Bar, chart: Timeline, room: int, column: Column) -> str:
    line = [" "] * room
    if bar.first <= chart.end and (bar.fades or bar.last >= chart.start):
        ends = column(bar.last)
        for at in range(column(bar.first), room if bar.fades else ends + 1):
            line[at] = _BAR if at <= ends else _FURTHER
        if bar.last > chart.end:
            line[-1] = _FURTHER
    if chart.when:
        for at in {column(chart.when.earliest), column(chart.when.latest)}:
            line[at] = _NOW if bar.holds(chart.when) else _CLASH
    return "".join(line)


def _short(label: str, room: int) -> str:
    return label if len(label) <= room else f"{label[: room - 1]}…"
