"""A gauge from a count of holes: what it agrees with, what is left, whether it can be the issue's."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical

from counter.desk.identify.gauge_input import Counted
from counter.judge.gauge import gauge_for
from counter.judge.judgement import Judgement
from counter.tui.screens.examine.grounds import reasons_lines
from counter.tui.screens.examine.state import Looking
from counter.tui.widgets.scroll_page import ScrollPage
from counter.tui.widgets.text import Line, wrap
from counter.tui.widgets.text_entry import PromptedEntry
from counter.values.gauge import Measured


class Gauge(Vertical):
    """The line to type a count in, and what comes of it."""

    def __init__(self, looking: Looking) -> None:
        super().__init__(id="gauge")
        self.looking = looking

    def compose(self) -> ComposeResult:
        """Entry above, page below."""
        yield PromptedEntry("count", "20 over 25 mm; top and side: 20/25mm x 18/22mm", entry="count")
        yield GaugePage(self.looking)


class GaugePage(ScrollPage):
    """What the count comes to."""

    def __init__(self, looking: Looking) -> None:
        super().__init__(self._page, id="gauge-page")
        self.looking = looking

    def _page(self, width: int) -> list[Line]:
        looking = self.looking
        if looking.counted is None:
            words = looking.count_told or "Count the holes (or the teeth) of one side over any length."
            ink = "care" if looking.count_told else "dim"
            return [[(f"  {part}", ink)] for part in wrap(words, width - 4)]
        counted = looking.counted
        lines = [
            *_measured(counted, width),
            *self._left(counted, width),
            [],
            [(f"  Enter puts {counted.words} into the line.", "accent")],
            [],
            *self._chosen(counted, width),
        ]
        for caution in counted.reading.cautions:
            lines += _said("!", caution, width, "care")
        return lines

    def _left(self, counted: Counted, width: int) -> list[Line]:
        """The issues left: of the candidates, then how many at all; without candidates all of them."""
        board, left = self.looking.board, counted.reading.issues
        candidates = [each.issue_id for each in board.candidates]
        names = [board.short_name(each) for each in candidates or left if each in left]
        told = "; ".join(names) or ("none of the candidates" if candidates else "no issue")
        lines = _said("left", told, width, "plain" if names else "bad")
        if candidates:
            count = f"{len(names)} of {len(candidates)} candidates; of all issues {len(left)}"
            lines += _said("", count, width, "dim")
        return lines

    def _chosen(self, counted: Counted, width: int) -> list[Line]:
        """Whether it can be the gauge of the chosen candidate, and if not, why."""
        issue, desk = self.looking.issue(), self.looking.board.desk
        if not issue or not desk:
            return []
        judged = gauge_for(issue, desk.library.stamps, counted.across, counted.down)
        sign, ink = _verdict(judged)
        lines = _said(sign, f"{issue.name}: {judged.verdict}", width, ink)
        told = reasons_lines(judged.reasons, self.looking.board.source_words, width - 11)
        lines += [[(" " * 9, "plain"), *line] for line in told]
        for question in judged.asks:
            lines += _said("?", question, width)
        return lines


def _verdict(judged: Judgement) -> tuple[str, str]:
    """Sign and ink of a verdict: what speaks against it, for it, or neither."""
    for reason in judged.reasons:
        if reason.speaks != "neutral":
            return ("✗", "bad") if reason.speaks == "against" else ("✓", "good")
    return "?", "unknown"


def _measured(counted: Counted, width: int) -> list[Line]:
    """Each side: its figure, the standard gauges it agrees with, and how it was worked out."""
    lines = _side(
        "gauge" if counted.down is None else "top", counted.across, counted.reading.agrees_with
    )
    how = counted.across.how
    if counted.down:
        lines += _side("side", counted.down, counted.reading.agrees_down)
        lines += _said("", f"the sides are {counted.reading.sides}", width)
        how = f"{counted.down.holes:g} in {counted.down.length_mm:g} mm; {how}"
    return [*lines, *_said("", how, width, "dim")]


def _side(label: str, side: Measured, agrees: tuple[float, ...]) -> list[Line]:
    told = " and ".join(f"{each:g}".replace(".5", "½") for each in agrees)
    words = f"   agrees with {told}" if told else "   agrees with no gauge recorded here"
    figures = f"{side.value:.1f} ± {side.plus_minus:.1f}"
    return [[(f"  {label:<7}", "dim"), (figures, "strong"), (words, "good" if told else "bad")]]


def _said(label: str, words: str, width: int, ink: str = "plain") -> list[Line]:
    parts = wrap(words, max(width - 11, 10))
    heads = [f"  {label:<7}", *([" " * 9] * (len(parts) - 1))]
    return [[(head, "dim"), (part, ink)] for head, part in zip(heads, parts, strict=True)]
