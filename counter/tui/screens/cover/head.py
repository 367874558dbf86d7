"""The finding in words and sign, with the points that made it."""

from __future__ import annotations

from collections.abc import Callable

from counter.desk.covers.session import CoverNotes
from counter.judge.cover.check import DEFER
from counter.judge.cover.finding import WORDS, Finding
from counter.judge.cover.result import CheckResult
from counter.tui.widgets.line_widget import LineWidget
from counter.tui.widgets.text import Line, two_ends, wrap

#: Sign and ink of a finding; the word stands beside it.
SIGNS: dict[Finding, tuple[str, str]] = {
    "consistent": ("✓", "good"),
    "undecided": ("?", "unknown"),
    "caution": ("!", "care"),
    "contradicts": ("✗", "bad"),
}


class Head(LineWidget):
    """Four lines: the finding, what speaks against, what speaks for, and who can be certain."""

    DEFAULT_CSS = "Head { height: 4; }"

    def __init__(self, notes: Callable[[], CoverNotes]) -> None:
        super().__init__()
        self.notes = notes

    def line_at(self, y: int, width: int) -> Line:
        """The finding's word is never cut; points that do not fit are counted."""
        case = self.notes().case
        found = case.found
        if y == 0:
            sign, ink = SIGNS[found.finding]
            told = found.words.rpartition("(")[2].rstrip(")")
            caution: Line = [("! see the caution ", "care")] if found.cautions else []
            left: Line = [
                (f" {sign} {found.finding.upper()}", ink),
                (f"  {WORDS[found.finding]}", "plain"),
            ]
            return two_ends(left, [*caution, (f" {told} " if width >= 100 else "", "dim")], width)
        if y in (1, 2):
            speaks, ink = (("against", "bad"), ("for", "good"))[y - 1]
            points = [each for each in found.decided() if each.speaks == speaks]
            return self._points(speaks, ink, points, width)
        return [(f"   {DEFER}", "dim")] if y == 3 else []

    def _points(self, speaks: str, ink: str, points: list[CheckResult], width: int) -> Line:
        labels = self.notes().desk.library.postal.checks
        sign = "✗" if speaks == "against" else "✓"
        head: Line = [(f" {sign} {speaks:<8}", ink if points else "dim")]
        weighty = [f"{labels[each.id].label} ({each.strength})" for each in points]
        if not weighty:
            return [*head, ("nothing so far", "dim")]
        room = width - 12
        shown = 0
        while shown < len(weighty) and len(_said(weighty, shown + 1)) <= room:
            shown += 1
        return [*head, (wrap(_said(weighty, max(shown, 1)), room)[0], "plain")]


def _said(points: list[str], shown: int) -> str:
    left = len(points) - shown
    return ", ".join(points[:shown]) + (f", {left} more" if left else "")
