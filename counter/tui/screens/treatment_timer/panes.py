"""The panes of the bath screen: the clock, what to do, the stages, the other baths."""

from __future__ import annotations

from counter.trade.treatment_clock import Countdown, clock_words
from counter.tui.screens.treatment_timer.digits import large
from counter.tui.screens.treatment_timer.telling import (
    ink_of,
    left_words,
    length_words,
    order_words,
    what,
)
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.list_view import LineList, mark
from counter.tui.widgets.text import Line, fit, two_ends

#: However wide the screen is, a stage's time stays beside its words.
_WIDE = 80


class Clock(LineWidget):
    """The time in large figures; over time they have a plus before them."""

    DEFAULT_CSS = "Clock { height: 1fr; }"

    def __init__(self) -> None:
        super().__init__(id="clock")
        self.now: Countdown | None = None

    def figures(self) -> str:
        """What the clock says: what is left, or + what it is over."""
        now = self.now
        if now is None:
            return "0:00"
        return clock_words(now.remaining) if now.state == "running" else f"+{clock_words(now.overdue)}"

    def line_at(self, y: int, width: int) -> Line:
        """One row of the figures, in the middle of the room there is."""
        if self.now is None:
            words = "  To begin one: F6 at the counter, Enter on a treatment, F7 there."
            return [(words, "dim")] if y == 0 else []
        lines = large(self.figures(), width - 4, max(self.size.height, 5))
        top = max((self.size.height - len(lines)) // 2, 0)
        row = y - top
        if not 0 <= row < len(lines):
            return []
        figures = lines[row].lstrip()
        return [(" " * (2 + len(lines[row]) - len(figures)), "plain"), (figures, ink_of(self.now))]


class StageOrder(LineWidget):
    """The stage, what to do now, and how far it is."""

    DEFAULT_CSS = "StageOrder { height: 3; }"

    def __init__(self) -> None:
        super().__init__(id="order")
        self.now: Countdown | None = None
        self.beat = True

    def line_at(self, y: int, width: int) -> Line:
        """The stage (or a doubt about the clock), the order, the bar."""
        now = self.now
        if now is None:
            return []
        ink = ink_of(now) if now.state != "running" else "plain"
        if y == 0 and now.doubtful:
            return [("  The clock was set back while the counter was closed: it is longer.", "bad")]
        if y == 0:
            place = f"stage {now.bath.stage + 1} of {len(now.bath.stages)} "
            left: Line = [(f"  {now.stage.words}", "strong")]
            return two_ends(left, [(place, "dim")], min(width, _WIDE))
        if y == 1:
            return [(f"  {order_words(now, self.beat)}", ink)]
        return progress_line(now, width)


def progress_line(now: Countdown, width: int) -> Line:
    """How much of the time is used, as a bar and in words."""
    words = f" {clock_words(now.elapsed)} of {clock_words(now.stage.seconds)} "
    room = max(width - len(words) - 3, 10)
    full = min(int(room * now.progress), room)
    ink = ink_of(now) if now.state != "running" else "accent"
    return [("  ", "plain"), ("█" * full, ink), ("░" * (room - full), "dim"), (words, "strong")]


class Stages(LineWidget):
    """Every stage of the bath in hand: done, now, to come."""

    DEFAULT_CSS = "Stages { height: 5; }"

    def __init__(self) -> None:
        super().__init__(id="stages")
        self.now: Countdown | None = None

    def line_at(self, y: int, width: int) -> Line:
        """One stage a line; the lines keep the present one in view."""
        now = self.now
        if now is None:
            return []
        stages, at = now.bath.stages, now.bath.stage
        top = max(min(at - 1, len(stages) - self.size.height), 0)
        index = top + y
        if index >= len(stages):
            return []
        sign, ink = (
            ("✓ ", "dim") if index < at else (("▸ ", "strong") if index == at else ("  ", "plain"))
        )
        right = length_words(stages[index].seconds)
        if index < at and stages[index].works and now.bath.worked is not None:
            right = f"rinsed after {clock_words(now.bath.worked)}"
        left: Line = [("  ", "plain"), (sign, "good" if index < at else "accent")]
        return two_ends([*left, (stages[index].words, ink)], [(f" {right} ", "dim")], min(width, _WIDE))


class BathRows(LineList):
    """All running baths, numbered; shown when there is more than one."""

    DEFAULT_CSS = "BathRows { height: 0; }"

    def __init__(self) -> None:
        super().__init__(id="baths")
        self.running: tuple[Countdown, ...] = ()

    def count(self) -> int:
        """How many run."""
        return len(self.running)

    def row(self, index: int, width: int, *, chosen: bool) -> Line:
        """Number, piece and stage; how it stands, never cut."""
        now = self.running[index]
        left: Line = [mark(chosen), (f"{index + 1} ", "accent"), (fit(what(now), 16), "strong")]
        left.append((f" {now.stage.words}", "dim"))
        sign = "✗ " if now.state == "danger" else ("! " if now.state == "over" else "")
        return two_ends(left, [(f" {sign}{left_words(now)} ", ink_of(now))], width)
